/** A correct scenario file and ways to spoil it. */

import type { Fault, Warning } from '../../sim/scenario/faults.js';
import { readScenario } from '../../sim/scenario/read.js';

export const CELLAR = `title: Cellar line
start: 2027-01-04
weeks: 26
seed: 7
visits: [mon, thu, sat]        # or daily, or always
away: [{from: 2027-02-08, to: 2027-02-14}]
stages:                        # in the order in which plants pass through them
  - {name: germination, channels: 1, holes: 40}                  # holes per channel
  - {name: nursery, channels: 2, holes: 24, hole_area_cm2: 100}
  - {name: finishing, channels: 8, holes: 9, hole_area_cm2: 400, clean_days: 1}
crops:
  - name: butterhead
    germination: 0.92
    sow: {every: 3, seeds: 10}  # or {on: [mon, thu], seeds: 10}, {dates: [2027-01-04], seeds: 10}, {refill: true}
    cuts: 1                     # picks per plant; with more than 1, regrow: {days: 12, spread: 0.15, loss: 0.01}
    head_g: 150
    stages:
      germination: {days: 7, spread: 0.10, keeps: 4}
      nursery: {days: 14, spread: 0.12, loss: 0.03, keeps: 7}
      finishing: {days: 21, spread: 0.12, loss: 0.02, keeps: 7, shape: gamma}
want: {heads: 6, on: [tue, fri]}   # optional; without it all that is ready is picked
`;

/** The correct file with pieces replaced, each of which must be in it. */
export function cellarWith(...edits: readonly [from: string, to: string][]): string {
  return edited(CELLAR, edits);
}

/** A text with pieces replaced, each of which must be in it. */
export function edited(original: string, edits: readonly (readonly [from: string, to: string])[]): string {
  let text = original;
  for (const [from, to] of edits) {
    if (!text.includes(from)) throw new Error(`not in the file: ${from}`);
    text = text.replace(from, () => to);
  }
  return text;
}

/** The faults of a text, which must have some. */
export function faultsOf(text: string): readonly Fault[] {
  const reading = readScenario(text);
  if (reading.ok) throw new Error('read without fault');
  return reading.faults;
}

/** The faults of a text as `line:column path | found | expected | nearest`. */
export function faultLines(text: string): string[] {
  return faultsOf(text).map(
    ({ line, column, path, found, expected, nearest }) =>
      `${line}:${column} ${path} | ${found} | ${expected} | ${nearest}`,
  );
}

/** The reading of a text that must have no fault. */
export function readWell(text: string) {
  const reading = readScenario(text);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults, null, 1));
  return reading;
}

/** The warnings of a text as `line:column path | message`. */
export function warningLines(text: string): string[] {
  return readWell(text).value.warnings.map(
    ({ line, column, path, message }: Warning) => `${line}:${column} ${path} | ${message}`,
  );
}
