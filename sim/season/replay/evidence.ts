/** Which spells of empty holes a cause of the season explains. */

import { groupedBy } from '../../engine/lists.js';
import type { CostlyCause } from './costs.js';
import type { IdleSpell } from './idle-spells.js';

const NO_SOWINGS = { count: 0, below_plan: [], nobody_came: 0 };

/** The cause of a spell among those of the season; null if none of them is. */
export function causeOfSpell({ cause: why }: IdleSpell, causes: readonly CostlyCause[]): CostlyCause | null {
  const absent = (after: string, by: string): CostlyCause | undefined =>
    causes
      .filter((cause) => cause.kind === 'absent')
      .sort((a, b) => a.times - b.times)
      .find(({ since, until }) => since <= after && (until === null || by <= until));
  const of = (fits: (cause: CostlyCause) => boolean): CostlyCause | undefined => causes.find(fits);
  const found = (): CostlyCause | undefined => {
    switch (why.kind) {
      case 'absent':
        return absent(why.since, why.until ?? why.since);
      case 'thrown_away':
        return (
          causes.find((cause) => cause.kind === 'absent' && cause.until === why.date) ??
          of(({ kind }) => kind === 'thrown_away')
        );
      case 'batch_failed':
        return of(
          (cause) =>
            cause.kind === 'batches_failed' ||
            (cause.kind === 'batch_failed' && cause.batch === why.batch && cause.stage === why.stage),
        );
      case 'stage_before_full':
        return of((cause) => cause.kind === why.kind && cause.stage === why.stage);
      case 'too_little_sown': {
        const { count, below_plan: below, nobody_came } = why.sowings ?? NO_SOWINGS;
        if (below.length < count || count === 0) return of(({ kind }) => kind === 'few_seeds');
        if (nobody_came === count) return absent(below[0]!, below.at(-1)!);
        return of(
          (cause) =>
            cause.kind === 'too_little_sown' && below.every((on) => cause.from <= on && on <= cause.to),
        );
      }
      case 'between_visits':
      case 'late':
        return of(({ kind }) => kind === why.kind);
      default:
        return undefined;
    }
  };
  return found() ?? null;
}

/** Where and when holes stood empty for a cause, stage by stage. */
export function emptyFor(
  cause: CostlyCause,
  causes: readonly CostlyCause[],
  idle: readonly IdleSpell[],
): Pick<IdleSpell, 'stage' | 'from' | 'to' | 'hole_days'>[] {
  const spells = idle.filter((spell) => causeOfSpell(spell, causes) === cause);
  return [...groupedBy(spells, ({ stage }) => stage)].map(([stage, some]) => ({
    stage,
    from: some.map(({ from }) => from).sort()[0]!,
    to: some
      .map(({ to }) => to)
      .sort()
      .at(-1)!,
    hole_days: some.reduce((sum, { hole_days }) => sum + hole_days, 0),
  }));
}
