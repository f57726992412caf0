/** Faults and warnings of a season log as text. */

import type { LogFault, LogWarning } from '../../sim/season/log/faults.js';

/** More faults than these are counted, not listed: the first ones usually explain the rest. */
const MOST_SHOWN = 50;

/** @param name of the file as the user gave it */
export function logFaultsText(name: string, faults: readonly LogFault[]): string {
  const shown = faults
    .slice(0, MOST_SHOWN)
    .map((fault) => `  line ${fault.line}${titleText(fault)}\n    ${sentences(fault)}`);
  const head = faults.length === 1 ? `${name} has 1 fault:` : `${name} has ${faults.length} faults:`;
  const rest = faults.length > MOST_SHOWN ? [`  ... and ${faults.length - MOST_SHOWN} more.`] : [];
  return [head, ...shown, ...rest].join('\n');
}

/** Faults of one row that was typed and is in no file yet. */
export function rowFaultsText(faults: readonly LogFault[]): string {
  return faults
    .map((fault) => `  ${fault.column === null ? 'the row' : fault.column}\n    ${sentences(fault)}`)
    .join('\n');
}

export function logWarningsText(name: string, warnings: readonly LogWarning[]): string {
  return warnings.map(({ line, message }) => `Note: ${name}, line ${line}: ${message}`).join('\n');
}

function titleText({ column }: LogFault): string {
  return column === null ? '' : `, column ${column}`;
}

/** What was found, what was expected, the nearest word, what to do, how often. */
function sentences({ found, expected, nearest, advice, more }: LogFault): string {
  const parts = [`found ${found}; expected ${expected}.`];
  if (nearest !== null) parts.push(`Did you mean ${nearest}?`);
  if (advice !== '') parts.push(advice);
  if (more > 0) parts.push(`The same on ${more} more ${more === 1 ? 'line' : 'lines'}.`);
  return parts.join(' ');
}
