/**
 * Spells in which holes stood empty, with their causes, ranked by the heads that they cost.
 *
 * A spell is a maximal run of days on which holes of one stage stood empty for one cause. Days without such a hole
 * interrupt it only if they are more than the usual gap between two visits.
 *
 * What a spell cost is an estimate: its hole-days over the hole-days that a head takes in that stage (the plan's mean
 * stay and cleaning, over the picks to be expected of a plant that comes in). It is counted only in the stage that
 * holds the line back: an empty hole elsewhere costs nothing by itself, and the same missing plants would be counted
 * again. If not more heads are wanted than that stage can give, nothing is counted. Filling and the season's end cost nothing that could have been had.
 *
 * The ranking: spells that cost half a head or more, the most heads first; then the others, the most hole-days first;
 * then filling and the season's end.
 */

import { isoOfDay } from '../../models/dates.js';
import { usualGap } from '../history/attendance.js';
import type { IdleCause, IdleEvidence, TellCause } from './causes.js';
import { IdleCauses } from './idle-causes.js';

export interface IdleSpell {
  readonly stage: string;
  /** ISO dates of the first and the last day. */
  readonly from: string;
  readonly to: string;
  /** Holes that stood empty for this cause at once, at most. */
  readonly holes: number;
  readonly hole_days: number;
  /** Heads that it cost, an estimate; null in a stage that does not hold the line back. */
  readonly heads: number | null;
  readonly cause: IdleCause;
}

/** A spell on its way. */
interface Run {
  readonly tell: TellCause;
  readonly from: number;
  to: number;
  holes: number;
  holeDays: number;
}

/** Fewer heads than this are none [heads]. */
const WORTH_A_RANK = 0.5;

/** @returns all spells in the order of the ranking */
export function idleSpells(evidence: IdleEvidence): IdleSpell[] {
  const { season, meanFlow, stages, attendance } = evidence;
  const bridge = Math.max(1, usualGap(attendance.visits));
  const causes = new IdleCauses(evidence);
  const scarcest = meanFlow.scarcest();
  const spells: IdleSpell[] = [];
  stages.forEach(({ rests }, s) => {
    const { picks, needs } = meanFlow.mean(s);
    const over = (run: Run): void => {
      const { from, to, holes, holeDays } = run;
      const cause = run.tell(from, to);
      const free = cause.kind === 'end' || cause.kind === 'filling';
      spells.push({
        stage: season.plan.stages[s]!.name,
        from: isoOfDay(season.plan.start, from),
        to: isoOfDay(season.plan.start, to),
        holes,
        hole_days: holeDays,
        heads: s !== scarcest ? null : free ? 0 : (holeDays * picks) / needs,
        cause,
      });
    };
    for (const run of runsOf(causes, s, bridge)) over(run);
    for (const { channel, holes, from, to } of rests)
      over({
        tell: () => ({ kind: 'cleaning', channel }),
        from,
        to: to - 1,
        holes,
        holeDays: holes * (to - from),
      });
  });
  return spells.sort((a, b) => cost(b) - cost(a) || b.hole_days - a.hole_days);
}

/** Heads as far as they count in the ranking; below 0 for what could not have been otherwise. */
function cost({ heads, cause }: IdleSpell): number {
  if (cause.kind === 'end' || cause.kind === 'filling') return -1;
  return heads !== null && heads >= WORTH_A_RANK ? heads : 0;
}

/** The runs of one stage. @param bridge most days without such a hole within one run */
function runsOf(causes: IdleCauses, s: number, bridge: number): Run[] {
  const runs: Run[] = [];
  const open = new Map<string, Run>();
  causes.each(s, (day, key, tell, holes) => {
    let run = open.get(key);
    if (run === undefined || day - run.to > bridge + 1) {
      run = { tell, from: day, to: day, holes: 0, holeDays: 0 };
      open.set(key, run);
      runs.push(run);
    }
    run.to = day;
    run.holes = Math.max(run.holes, holes);
    run.holeDays += holes;
  });
  return runs;
}
