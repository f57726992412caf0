/** What a cause cost, against the truth: the same season simulated again, with the same luck, without the cause. */

import { describe, expect, test } from 'vitest';
import { Moments } from '../../../sim/engine/tally.js';
import type { Plan } from '../../../sim/models/plan.js';
import { replaySeason } from '../../../sim/season/replay/replay.js';
import type { ReplayResult } from '../../../sim/season/replay/result.js';
import { EXAMPLES, planOf, SHELF } from '../../support/examples.js';
import { type Planted, type PlantedKind, planted, ROOMY } from '../../support/planted.js';
import { simulatedLog } from '../../support/simulated-log.js';

function replayOf({ rows, plan }: Pick<Planted, 'rows' | 'plan'>): ReplayResult {
  const replayed = replaySeason(
    rows,
    plan.stages.map(({ name }) => name),
    plan,
  );
  if (!replayed.ok) throw new Error(JSON.stringify(replayed.faults));
  return replayed.value;
}

const SEASONS = 4;

describe.each<[PlantedKind, string, Plan]>([
  ['absent', 'a line with a little room to spare', ROOMY],
  ['too_little_sown', 'a line with a little room to spare', ROOMY],
  ['batch_failed', 'a line with a little room to spare', ROOMY],
  ['stage_before_full', 'a line with a little room to spare', ROOMY],
  ['absent', 'a line that is sown to refill', planOf(`${EXAMPLES}school-club.yaml`)],
  ['too_little_sown', 'the cellar line', planOf(SHELF)],
])('%s in seasons of %s', (kind, _, plan) => {
  test('comes first, at what it truly cost but for what the log cannot show', () => {
    const off = new Moments();
    const truths = new Moments();
    const tolds = new Moments();
    for (let season = 0; season < SEASONS; season++) {
      const cause = planted(kind, plan, season);
      const { causes, as_it_was, all_together } = replayOf(cause);
      expect(as_it_was).toMatchObject({ departs: 0, faithful: true });
      expect(causes[0]!.kind).toBe(kind);
      const { heads } = causes[0]!;
      expect(heads.low).toBeLessThanOrEqual(heads.mean);
      expect(heads.mean).toBeLessThanOrEqual(heads.high);
      expect(all_together!.mean).toBeGreaterThan(heads.low);
      off.add(heads.mean - cause.truth);
      truths.add(cause.truth);
      tolds.add(heads.mean);
    }
    // Two joint standard errors of the means.
    const joint = Math.sqrt((truths.variance + tolds.variance) / SEASONS);
    expect(Math.abs(off.mean)).toBeLessThan(2 * joint);
  });
});

test('an absence is found although all cells were taken, so that no sowing was missed', () => {
  const cause = planted('absent', planOf(SHELF), 119);
  const [first] = replayOf(cause).causes;
  expect(first).toMatchObject({ kind: 'absent', planned: false, times: 1 });
  expect(Math.abs(first!.heads.mean - cause.truth)).toBeLessThan(cause.truth / 10);
});

test('without a scenario no stage is told to have been full: its holes are not known', () => {
  const rows = simulatedLog(ROOMY, 5, 1);
  const replayed = replaySeason(
    rows,
    ROOMY.stages.map(({ name }) => name),
    null,
  );
  if (!replayed.ok) throw new Error(JSON.stringify(replayed.faults));
  const { causes, idle } = replayed.value;
  expect([...causes, ...idle.map(({ cause }) => cause)].map(({ kind }) => kind)).not.toContain(
    'stage_before_full',
  );
});

test('of a season as planned nothing is told to have gone wrong', () => {
  const { causes, without_cost, unseen } = replayOf({ rows: simulatedLog(ROOMY, 5, 1), plan: ROOMY });
  expect(unseen).toEqual([]);
  const kinds = [...causes, ...without_cost].map(({ kind }) => kind);
  for (const kind of ['absent', 'too_little_sown', 'thrown_away', 'late', 'few_seeds'])
    expect(kinds).not.toContain(kind);
});

test('the same log gives the same costs', () => {
  const cause = planted('batch_failed', ROOMY, 2);
  expect(replayOf(cause).causes).toEqual(replayOf(cause).causes);
});
