/** Faults and warnings of a scenario file as text. */

import type { Fault, Warning } from '../../sim/scenario/faults.js';

/** More faults than these are counted, not listed: the first ones usually explain the rest. */
const MOST_SHOWN = 50;

/** @param name of the file as the user gave it */
export function faultsText(name: string, faults: readonly Fault[]): string {
  const shown = faults.slice(0, MOST_SHOWN).map(faultText);
  const head = faults.length === 1 ? `${name} has 1 fault:` : `${name} has ${faults.length} faults:`;
  const rest = faults.length > MOST_SHOWN ? [`  ... and ${faults.length - MOST_SHOWN} more.`] : [];
  return [head, ...shown, ...rest].join('\n');
}

/** One fault: where, what was found, what was expected, the nearest word, what to do. */
function faultText(fault: Fault): string {
  const where = `  line ${fault.line}, column ${fault.column}${fault.path === '' ? '' : `: ${fault.path}`}`;
  const sentences = [`found ${fault.found}; expected ${fault.expected}.`];
  if (fault.nearest !== null) sentences.push(`Did you mean ${fault.nearest}?`);
  if (fault.advice !== undefined) sentences.push(fault.advice);
  return `${where}\n    ${sentences.join(' ')}`;
}

export function warningsText(name: string, warnings: readonly Warning[]): string {
  return warnings
    .map((warning) => `Note: ${name}, line ${warning.line}: ${warning.path}: ${warning.message}`)
    .join('\n');
}
