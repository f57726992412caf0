/** Where the light of a line fell, in shares of what is paid for. */

import { EMPTY_STATES, type HoleState, STATES } from '../../models/ledger.js';

/** What is known of the light of a stage, each figure with a mean. */
interface StageLight {
  readonly kwh: Mean | null;
  readonly mol: Readonly<Record<string, Mean | null>> | null;
}

interface Mean {
  readonly mean: number;
}

/** Shares from 0 to 1; together they are all of it. */
export interface LightShares {
  /** On leaves, and on gaps between them; null where leaves are not known: then `growing` is both. */
  readonly leaves: number | null;
  readonly gaps: number | null;
  readonly growing: number;
  /** On holes in the other states of the ledger. */
  readonly states: Readonly<Partial<Record<HoleState, number>>>;
  /** On dead plants and such as wait; on holes without a plant. */
  readonly waiting: number;
  readonly empty: number;
}

const EMPTY: ReadonlySet<string> = new Set(['cleaning', ...EMPTY_STATES.map((k) => STATES[k]!)]);

/**
 * Stages count by what their lamps draw where that is known of all of them, else by their light.
 * @returns null where no light falls, or not all of it is known
 */
export function lightShares(stages: readonly StageLight[]): LightShares | null {
  const paid = stages.every(({ kwh }) => kwh !== null);
  const sums = new Map<string, number>();
  let all = 0;
  let known = true;
  for (const { kwh, mol } of stages) {
    if (mol === null) return null;
    const parts = Object.entries(mol).map(([part, figure]) => [part, figure?.mean ?? null] as const);
    const light = parts.reduce((sum, [, amount]) => sum + (amount ?? 0), 0);
    if (light === 0) continue;
    const weight = (paid ? kwh!.mean : light) / light;
    all += weight * light;
    for (const [part, amount] of parts) {
      if (amount === null) known = false;
      else sums.set(part, (sums.get(part) ?? 0) + weight * amount);
    }
  }
  if (all === 0) return null;
  const share = (part: string): number => (sums.get(part) ?? 0) / all;
  const others = STATES.filter((state) => state !== 'growing');
  const sum = (of: readonly string[]): number => of.reduce((total, part) => total + share(part), 0);
  return {
    leaves: known ? share('leaves') : null,
    gaps: known ? share('gaps') : null,
    growing: sum(['leaves', 'gaps', 'growing']),
    states: Object.fromEntries(others.map((state) => [state, share(state)])),
    waiting: sum(others.filter((state) => !EMPTY.has(state))),
    empty: sum(others.filter((state) => EMPTY.has(state))),
  };
}
