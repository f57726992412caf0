/**
 * Spells in which holes stood empty, with their causes: where and when. What a cause cost is told by simulation (costs.ts).
 *
 * A spell is a maximal run of days on which holes of one stage stood empty for one cause. Days without such a hole
 * interrupt it only if they are more than the usual gap between two visits.
 *
 * `heads` is a share: the hole-days of a spell over those that a head takes in that stage (the plan's mean
 * stay and cleaning, over the picks to be expected of a plant that comes in), in the stage that
 * holds the line back. It is no cost.
 *
 * The most hole-days first; filling and the season's end, which could not have been otherwise, last.
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
  /** Heads that its hole-days are worth, which is not what it cost; null in a stage that does not hold the line back. */
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
      spells.push({
        stage: season.plan.stages[s]!.name,
        from: isoOfDay(season.plan.start, from),
        to: isoOfDay(season.plan.start, to),
        holes,
        hole_days: holeDays,
        heads: s !== scarcest ? null : isFree(cause) ? 0 : (holeDays * picks) / needs,
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
  return spells.sort(
    (a, b) => Number(isFree(a.cause)) - Number(isFree(b.cause)) || b.hole_days - a.hole_days,
  );
}

/** Whether nothing could have been done about it. */
function isFree({ kind }: IdleCause): boolean {
  return kind === 'end' || kind === 'filling';
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
