/** The second thread as it is built, asked as the dashboard asks it, held against the studies. */

import { Worker } from 'node:worker_threads';
import { afterEach, describe, expect, test } from 'vitest';
import { neighbours } from '../../../../cli/dashboard/state/strip.js';
import type { Question, Reply } from '../../../../cli/dashboard/thread/messages.js';
import { toPlan } from '../../../../sim/scenario/plan.js';
import type { Scenario } from '../../../../sim/scenario/schema.js';
import { gather } from '../../../../sim/seasons/gather.js';
import { type CompareResult, compareStudy } from '../../../../sim/study/compare.js';
import { type RunResult, runStudy } from '../../../../sim/study/summary.js';
import { until } from '../../../support/patience.js';
import { lineOf, read, CELLAR as WHOLE } from '../given.js';

let worker: Worker | null = null;
afterEach(async () => {
  await worker?.terminate();
  worker = null;
});

/** The thread and what it has answered so far. */
function asked() {
  const replies: Reply[] = [];
  worker = new Worker(new URL('../../../../dist/seasons-thread.js', import.meta.url));
  worker.on('message', (reply: Reply) => replies.push(reply));
  worker.on('error', (error) => {
    throw error;
  });
  const ask = (question: Partial<Question> & Pick<Question, 'id' | 'scenario'>): void => {
    const { scenario } = question;
    const strip = [{ name: 'now', scenario, now: true }];
    worker!.postMessage({
      before: null,
      season: 0,
      isKnown: false,
      strip,
      isCompared: false,
      kept: [],
      ...question,
    });
  };
  const comes = async (what: string, is: (reply: Reply) => boolean): Promise<Reply> => {
    await until(
      () => replies.some((reply) => reply.kind === 'failed' || is(reply)),
      what,
      () => replies.map(({ kind }) => kind).join(' '),
    );
    return replies.find(is)!;
  };
  return { replies, ask, comes };
}

type StripReply = Extract<Reply, { kind: 'strip' }>;
type FiguresReply = Extract<Reply, { kind: 'figures' }>;

/** All of a strip is told: of all seasons, with what holds each plan back. */
function isComplete(id: number) {
  return (reply: Reply): reply is StripReply =>
    reply.kind === 'strip' &&
    reply.id === id &&
    reply.told.rows.every(
      (row) =>
        row !== null &&
        row.seasons === reply.told.seasons &&
        (row.result.limits !== null || row.result.figures.usual_week === null),
    );
}

function isAnswered(id: number) {
  return (reply: Reply): reply is FiguresReply =>
    reply.kind === 'figures' && reply.id === id && reply.result.limits !== null;
}

function stripOf(scenario: Scenario, kind: 'cadence' | 'seeds' | 'visits'): Question['strip'] {
  return neighbours(scenario, { kind }, 5).map((row, i) => ({ name: `${i}`, ...row }));
}

const comparisons = new Map<string, Promise<CompareResult>>();

/** What `compare` says of the same plans, as many seasons as it takes by itself, the present plan first; worked out once. */
async function compared(strip: Question['strip'], seasons: number): Promise<CompareResult> {
  const ordered = [...strip.filter(({ now }) => now), ...strip.filter(({ now }) => !now)];
  const question = JSON.stringify([ordered, seasons]);
  const known = comparisons.get(question);
  if (known !== undefined) return await known;
  const contenders = ordered.map(({ name, scenario }) => ({ name, plan: toPlan(scenario) }));
  const study = compareStudy(contenders, contenders[0]!.plan.seed, seasons, null);
  const result = gather(study.workload).then((collected) => study.conclude(collected)!);
  comparisons.set(question, result);
  return await result;
}

async function ran(scenario: Scenario, seasons: number): Promise<RunResult> {
  const plan = toPlan(scenario);
  const study = runStudy(plan, plan.seed, seasons);
  return study.conclude(await gather(study.workload))!;
}

/**
 * A third of its holes and seeds, until a few weeks after its absence: what is claimed here is equal or not, however large a line is and
 * however long a season.
 */
const CELLAR: Scenario = {
  ...WHOLE,
  weeks: 10,
  stages: WHOLE.stages.map((stage) => ({ ...stage, holes: Math.ceil(stage.holes / 3) })),
  crops: WHOLE.crops.map((crop) => ({ ...crop, sow: { every: 3, seeds: 4 } })),
};

const SMALL = lineOf(
  [
    { name: 'tray', channels: 1, holesPerChannel: 12 },
    { name: 'bed', channels: 2, holesPerChannel: 10 },
  ],
  12,
);

/** So many seeds that fewer seasons are run than usually; of a slower cadence more than of a quicker. */
function sownThick(channels: number): Scenario {
  return read(`
title: sown thick
start: 2027-01-04
weeks: 6
visits: daily
stages: [{name: bed, channels: ${channels}, holes: 150}]
crops:
  - name: leaf
    germination: 1
    sow: {every: 2, seeds: 40000}
    stages: {bed: {days: 5, spread: 0.1}}
`);
}

describe('the figures equal those of run, the strip equals compare', () => {
  test.each(['cadence', 'seeds', 'visits'] as const)('of the cellar, by %s', async (kind) => {
    const { ask, comes } = asked();
    const strip = stripOf(CELLAR, kind);
    ask({ id: 1, scenario: CELLAR, strip });
    const figures = (await comes('the figures', isAnswered(1))) as FiguresReply;
    expect(figures.result).toEqual(await ran(CELLAR, 200));
    const { told } = (await comes('the strip', isComplete(1))) as StripReply;
    const { plans, running } = await compared(strip, 200);
    expect(told.seasons).toBe(200);
    expect(told.from).toBe(running!.from);
    for (const plan of plans) {
      // Whether nobody is away is not run of neighbours.
      const theirs = { ...plan, without_absence: null };
      expect(told.rows[Number(plan.name)]!.result).toEqual(theirs);
    }
  });

  test('of plans of which compare would run different numbers of seasons: of all as few as of the least', async () => {
    const { ask, comes } = asked();
    // Most of the seeds find no hole, so a season is soon run.
    const thick = sownThick(1);
    const strip = stripOf(thick, 'cadence');
    ask({ id: 1, scenario: thick, strip });
    const { told } = (await comes('the strip', isComplete(1))) as StripReply;
    expect(told.seasons).toBeLessThan(200);
    const { plans } = await compared(strip, told.seasons);
    for (const plan of plans) expect(told.rows[Number(plan.name)]!.result).toEqual(plan);
  });

  test('of a line that is not picked in its time', async () => {
    const { ask, comes } = asked();
    const short = { ...SMALL, weeks: 1 };
    const strip = stripOf(short, 'visits');
    ask({ id: 1, scenario: short, strip });
    const { told } = (await comes('the strip', isComplete(1))) as StripReply;
    expect(told.from).toBeNull();
    const { plans, running } = await compared(strip, 200);
    expect(running).toBeNull();
    for (const plan of plans) expect(told.rows[Number(plan.name)]!.result).toEqual(plan);
  });
});

test('a question that comes in between is answered first, and what was run until then is not run again', async () => {
  const { ask, comes, replies } = asked();
  const strip = stripOf(CELLAR, 'cadence');
  ask({ id: 1, scenario: CELLAR, strip });
  await comes('the first figures', (reply) => reply.kind === 'figures');
  const next = strip.find(({ now }) => !now)!.scenario;
  const again = stripOf(next, 'cadence');
  ask({ id: 2, scenario: next, before: CELLAR, strip: again });
  const { result, differences } = (await comes('the next figures', isAnswered(2))) as FiguresReply;
  expect(result).toEqual(await ran(next, 200));
  const both = await compared(
    [
      { name: 'before', scenario: CELLAR, now: true },
      { name: 'now', scenario: next, now: false },
    ],
    200,
  );
  expect(differences).toEqual({
    heads_a_week: both.plans[1]!.figures.heads_a_week!.difference,
    bad_week: both.plans[1]!.figures.bad_week!.difference,
  });
  const { told } = (await comes('the next strip', isComplete(2))) as StripReply;
  const { plans } = await compared(again, 200);
  for (const plan of plans) {
    expect(told.rows[Number(plan.name)]!.result).toEqual({ ...plan, without_absence: null });
  }
  // And back: all of it is known, so the first that is told of the strip is all there is to tell.
  ask({ id: 3, scenario: CELLAR, strip });
  await comes('the strip of before', isComplete(3));
  expect(replies.filter((reply) => reply.kind === 'figures' && reply.id === 3)[0]).toMatchObject({
    result: { partial: false },
  });
  const first = replies.find((reply) => reply.kind === 'strip' && reply.id === 3) as StripReply;
  expect(first.told.rows.filter((row) => row?.seasons === 200).length).toBeGreaterThanOrEqual(3);
});

test('known figures are not told again: only another film, and the strip', async () => {
  const { ask, comes, replies } = asked();
  ask({ id: 1, scenario: SMALL });
  await comes('the figures', isAnswered(1));
  ask({ id: 2, scenario: SMALL, season: 3, isKnown: true, strip: stripOf(SMALL, 'seeds') });
  await comes('the strip', isComplete(2));
  expect(replies.filter((reply) => reply.kind === 'figures' && reply.id === 2)).toEqual([]);
  expect(replies.filter((reply) => reply.kind === 'film')).toHaveLength(2);
});

test('a kept plan without figures gets those of run', async () => {
  const { ask, comes } = asked();
  const kept = stripOf(CELLAR, 'cadence')[0]!.scenario;
  ask({ id: 1, scenario: SMALL, kept: [{ number: 4, scenario: kept }] });
  const reply = await comes('the kept figures', ({ kind }) => kind === 'kept');
  expect(reply).toEqual({ kind: 'kept', number: 4, result: await ran(kept, 200) });
});

test('of a line whose seasons take long the first are told early, with their number', async () => {
  const { ask, comes } = asked();
  const large = sownThick(100);
  ask({ id: 1, scenario: large });
  const first = (await comes('the first figures', (reply) => reply.kind === 'figures')) as FiguresReply;
  const { result } = first;
  expect(result.limits).toBeNull();
  // How many depends on how quick the machine is; what they say does not.
  const { weeks, figures, counts } = await ran(large, result.seasons);
  expect(result.weeks).toEqual(weeks);
  expect(result.counts).toEqual(counts);
  expect(result.figures.usual_week?.mean).toBe(figures.usual_week?.mean);
});

test('a comparison that is wished for is that of compare, with the weeks if nobody were away; else none is told', async () => {
  const { ask, comes, replies } = asked();
  // Somebody is away, so each plan has more to be run than the strip shows.
  expect(CELLAR.away).not.toEqual([]);
  const strip = stripOf(CELLAR, 'seeds');
  ask({ id: 1, scenario: CELLAR, strip });
  await comes('the whole strip', isComplete(1));
  ask({ id: 2, scenario: CELLAR, strip, isKnown: true, isCompared: true });
  const reply = await comes('the comparison', ({ kind }) => kind === 'compared');
  expect(replies.filter(({ kind }) => kind === 'compared')).toHaveLength(1);
  if (reply.kind !== 'compared') throw new Error(reply.kind);
  expect(reply.id).toBe(2);
  expect(reply.result.plans.some((plan) => plan.without_absence !== null)).toBe(true);
  expect(reply.result).toEqual(await compared(strip, reply.result.seasons));
});
