/**
 * Batches that were entered later, with true dates but without the plants that had been lost by then.
 *
 * The first batches of a stage lost nothing there, and with the losses of the others that would happen less than once in
 * 1000 logs; or in 20, if there are several, on average of a tenth fewer seeds than is usual, as batches are of which plants are missing.
 * Then what had failed, died or been picked by then was not counted, and what is told of any stage is that of survivors.
 */

import { power } from '../../engine/power.js';
import type { Observations } from './observations.js';
import { type Group, total } from './survival/record.js';

/** So rare that chance does not explain it. */
const ONCE_IN = 1000;
const IF_SMALLER = 20;
const SMALLER = 0.9;
/** That fewer batches are smaller says nothing: who begins, tries. */
const FEWEST_SMALLER = 3;

/** @returns names of the batches */
export function survivorsOnly({ stages }: Observations): ReadonlySet<string> {
  const names = stages.flatMap(({ kinds, record, batches }, s) => {
    const named = record.groups.map((group, g) => [group, batches[g]!] as const);
    return kinds.flatMap(({ regrowth }, k) =>
      regrowth
        ? []
        : firstWithoutLosses(
            named.filter(([{ kind }]) => kind === k),
            s === 0,
          ),
    );
  });
  return new Set(names);
}

/**
 * @param groups of one kind in a stage, in the order of their coming, with the names of their batches
 * @param sown whether they were sown there: then plants are missing of a small one
 * @returns names of the first that lost nothing; none if that can be chance
 */
function firstWithoutLosses(groups: readonly (readonly [Group, string])[], sown: boolean): string[] {
  const counts = groups.map(([{ ready, dead }]) => ({ left: total(ready) + total(dead), dead: total(dead) }));
  const [first] = groups;
  // What is said to have been found standing is known to be survivors.
  if (first === undefined || first[0].entries.some(({ stood }) => stood !== undefined)) return [];
  const whole = groups.findIndex(([{ standing }], i) => standing > 0 || counts[i]!.dead > 0);
  if (whole <= 0) return [];
  // One batch that failed as a whole says nothing of the others.
  const others = counts
    .slice(whole)
    .filter(({ left }) => left > 0)
    .sort((a, b) => a.dead / a.left - b.dead / b.left);
  const usual = others.slice(0, -1);
  const sum = (some: typeof counts, key: 'left' | 'dead'): number =>
    some.reduce((all, one) => all + one[key], 0);
  const lost = sum(usual, 'dead') / sum(usual, 'left');
  const chance = power(1 - lost, sum(counts.slice(0, whole), 'left'));
  const sizes = groups.map(([{ entries }]) => total(entries));
  const later = sizes.slice(whole).sort((a, b) => a - b);
  const usualSize = later[Math.floor(later.length / 2)]!;
  const size = total(groups.slice(0, whole).flatMap(([{ entries }]) => entries)) / whole;
  const smaller = sown && whole >= FEWEST_SMALLER && size <= SMALLER * usualSize;
  return chance * (smaller ? IF_SMALLER : ONCE_IN) < 1 ? groups.slice(0, whole).map(([, name]) => name) : [];
}
