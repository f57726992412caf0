/** The scenario's keys as a Markdown table, made from the schema. */
import { scenarioJsonSchema, scenarioKeyTable } from '../dist/index.js';

/** @returns {string} Markdown */
export function keysTable() {
  const schema = scenarioJsonSchema();
  const rows = scenarioKeyTable().map(({ key, meaning, expected }) => {
    const left = leftOut(schema, key.replaceAll('[]', '.[]').split('.'));
    return `| \`${key}\` | ${cell(meaning)} | ${cell(expected)} | ${cell(left)} |`;
  });
  return `| key | meaning | what it takes | left out |\n| --- | --- | --- | --- |\n${rows.join('\n')}\n`;
}

/** What is taken if a key is left out: its default, or that it is needed; nothing where the meaning says it. */
function leftOut(schema, [step, ...rest]) {
  const branches = schema.anyOf ?? [schema];
  const at = branches.find((branch) => below(branch, step) !== undefined);
  const next = below(at, step);
  if (rest.length > 0) return leftOut(next, rest);
  if (next.default !== undefined) return text(next.default);
  // Of several ways to say it, what one of them needs is not needed by the others.
  return branches.length === 1 && at.required?.includes(step) ? 'needed' : '';
}

function below(schema, step) {
  if (step === '[]') return schema.items;
  return step.startsWith('<') ? schema.additionalProperties : schema.properties?.[step];
}

function text(value) {
  return Array.isArray(value) ? 'none' : String(value);
}

function cell(words) {
  return words.replaceAll('|', '\\|');
}
