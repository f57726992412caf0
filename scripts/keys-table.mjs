/** The scenario's keys as a Markdown table. */
import { scenarioKeyTable } from '../dist/index.js';

const cell = (text) => text.replaceAll('|', '\\|');

/** @returns {string} Markdown */
export function keysTable() {
  const rows = scenarioKeyTable().map(
    ({ key, meaning, expected }) => `| \`${key}\` | ${cell(meaning)} | ${cell(expected)} |`,
  );
  return `| key | meaning | what it takes |\n| --- | --- | --- |\n${rows.join('\n')}\n`;
}
