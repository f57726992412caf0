/** Seasons with one planted cause each: what the log of such a season is, and what the cause truly cost. */

import type { Draws } from '../../sim/models/growth.js';
import { PICKED } from '../../sim/models/ledger.js';
import { Line, planDraws } from '../../sim/models/line/line.js';
import type { Plan } from '../../sim/models/plan.js';
import type { LogRow } from '../../sim/season/log/rows.js';
import { crop, every, grow, line, stage, time, visitDays } from './plans.js';
import { simulatedLog } from './simulated-log.js';

export type PlantedKind = 'absent' | 'too_little_sown' | 'batch_failed' | 'stage_before_full';

export interface Planted {
  readonly rows: LogRow[];
  /** The scenario of the line, as the grower has it. */
  readonly plan: Plan;
  /** Heads that the season gives more without the cause, with the same draws. */
  readonly truth: number;
}

/** A line of three stages that is visited every other day and has a little more room than it needs. */
export const ROOMY = line(
  [stage('tray', 70), { ...stage('nursery', 22), channels: 3 }, { ...stage('finishing', 12), channels: 8 }],
  [
    crop(
      [
        grow(time(7, 0.1), { keeps: 6 }),
        grow(time(14, 0.12), { loss: 0.03, keeps: 7 }),
        grow(time(21, 0.12, 'gamma'), { loss: 0.02, keeps: 7 }),
      ],
      every(7, 182, 32),
      { germination: 0.92 },
    ),
  ],
  { weeks: 26, visits: visitDays(26, [1, 0]), seed: 3 },
);

/** @param plan of a line of three stages with one crop that is sown as it falls due @param season its luck; also where the cause falls */
export function planted(kind: PlantedKind, plan: Plan, season: number): Planted {
  const seed = 20270104;
  const sowing = plan.crops[0]!.sowing as { days: readonly number[]; seeds: number };
  const at = 45 + ((season * 37) % 50);
  let done = plan;
  let known = plan;
  let drawsOf = planDraws(plan);
  if (kind === 'absent') {
    const days = (plan.visits as { days: readonly number[] }).days;
    done = { ...plan, visits: { kind: 'days', days: days.filter((day) => day < at || day >= at + 18) } };
  } else if (kind === 'too_little_sown') {
    const one = sowing.days.flatMap((day) => {
      const few = day >= at && day < at + 28;
      return new Array<number>(few ? Math.round(0.3 * sowing.seeds) : sowing.seeds).fill(day);
    });
    done = withSowing(plan, one);
  } else if (kind === 'batch_failed') {
    const first = sowing.days.filter((day) => day < at).length * sowing.seeds;
    const own = drawsOf;
    drawsOf = (c, s) => (s === 0 ? new Failing(own(c, s), first, first + sowing.seeds) : own(c, s));
  } else {
    done = {
      ...plan,
      stages: plan.stages.map((one, s) => (s === 1 ? { ...one, channels: one.channels - 1 } : one)),
    };
    known = done;
  }
  const picked = (plan: Plan, options = {}): number =>
    new Line(plan, options).run(seed, season).counts[PICKED]!;
  return {
    rows: simulatedLog(done, seed, season, { drawsOf }),
    plan: known,
    truth: picked(plan) - picked(done, { drawsOf }),
  };
}

function withSowing(plan: Plan, days: readonly number[]): Plan {
  return { ...plan, crops: [{ ...plan.crops[0]!, sowing: { kind: 'due', days, seeds: 1 } }] };
}

/** Seeds from one to another fail; all else is as the draws have it. */
class Failing implements Draws {
  readonly times = new Float64Array(1);
  readonly moments = new Float64Array(1);
  readonly sprouts = new Uint8Array(1);
  #taken = 0;

  constructor(
    readonly own: Draws,
    readonly from: number,
    readonly to: number,
  ) {}

  start(seed: number, season: number): void {
    this.#taken = 0;
    this.own.start(seed, season);
  }

  take(): number {
    const k = this.own.take();
    const fails = this.#taken >= this.from && this.#taken < this.to;
    this.#taken++;
    this.times[0] = this.own.times[k]!;
    this.moments[0] = fails ? 2 : this.own.moments[k]!;
    this.sprouts[0] = fails ? 0 : this.own.sprouts[k]!;
    return 0;
  }
}
