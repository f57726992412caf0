/** Why figures of a fit are not sure although enough plants were seen, in sentences: each once for all stages that it concerns. */

import type { FitDoubt, StageFit } from '../../sim/season/fit/fit.js';
import { counted, listed, thousands } from '../words/numbers.js';

/** Batches that are named one by one. */
const MOST_NAMED = 6;

type Doubt<Why extends FitDoubt['why']> = { readonly stage: string; readonly doubt: FitDoubt & { why: Why } };

export function doubtSentences(stages: readonly StageFit[]): string[] {
  const of = <Why extends FitDoubt['why']>(why: Why): Doubt<Why>[] =>
    stages.flatMap(({ stage, doubts }) =>
      doubts.flatMap((doubt) => (doubt.why === why ? [{ stage, doubt: doubt as Doubt<Why>['doubt'] }] : [])),
    );
  return [
    ...begunMidway(of('begun_midway')),
    ...survivorsOnly(of('survivors_only')),
    ...of('unused_holes').map(
      ({ stage, doubt: { stage: next, planned, most, times } }) =>
        `Of the ${thousands(planned)} holes of ${next} never more than ${thousands(most)} were taken, and so many after ${thousands(times)} visits, while plants, it seems, waited in ${stage}. Has ${next} ${counted(most, 'hole')}? Then say so in the scenario and fit again: as it is, waiting is taken for growing.`,
    ),
    ...thrownAway(of('thrown_away')),
    ...of('unmentioned').map(
      ({ stage, doubt: { batches } }) =>
        `${named(batches)} lost far more plants in ${stage} than the others, and no row says why. Were they thrown away, or is a row missing? Losses there are not sure.`,
    ),
    ...of('died_or_failed').map(
      ({ stage }) =>
        `Which of the plants that were lost in ${stage} died and which never sprouted is not known, because they were not cleared at every visit.`,
    ),
    ...clearedRarely(stages.filter(({ cleared_rarely }) => cleared_rarely)),
    ...stages.flatMap(takenForLost),
  ];
}

function begunMidway(found: readonly Doubt<'begun_midway'>[]): string[] {
  if (found.length === 0) return [];
  const batches = [...new Set(found.flatMap(({ doubt }) => doubt.batches))];
  const places = listed([...new Set(found.map(({ stage }) => stage))]);
  return [
    `${named(batches)} cannot have been sown on the day on which they were logged: plants of that day were moved on at once. So what plants took in ${places} is not sure. Log what stands when a log begins by rows of its own, with the day since which it stands there if you know it: evensow log stand 12 ${batches[0]} ${found.at(-1)!.stage} --since 2027-02-01`,
  ];
}

function survivorsOnly(found: readonly Doubt<'survivors_only'>[]): string[] {
  const [first] = found;
  if (first === undefined) return [];
  const batches = [...new Set(found.flatMap(({ doubt }) => doubt.batches))];
  const places = listed([...new Set(found.map(({ stage }) => stage))]);
  return [
    `${named(batches)} lost hardly a plant, far fewer than the batches after them: it seems that only what still stood was entered when the log began. So nothing that is told of ${places} is sure. Log what stood then by rows of its own, with the day since which it stands there: evensow log stand 12 ${batches[0]} ${first.stage} --since 2027-02-01`,
  ];
}

function thrownAway(found: readonly Doubt<'thrown_away'>[]): string[] {
  if (found.length === 0) return [];
  const counts = found.map(({ stage, doubt }) => `${thousands(doubt.count)} in ${stage}`);
  return [
    `Plants were thrown away when there was no room for all that were ready (${listed(counts)}): they left out of turn, so days and spread there are not sure.`,
  ];
}

/** Where little is made of clearings, and that is allowed for. */
function clearedRarely(stages: readonly StageFit[]): string[] {
  const seen = stages.filter(({ dead }) => dead > 0).map(({ stage }) => stage);
  return seen.length === 0
    ? []
    : [
        `What failed or died in ${listed(seen)} was, it seems, not cleared at every visit, so nothing is made of when it was cleared.`,
      ];
}

/** What no row tells of, and is allowed for. */
function takenForLost({ stage, germination, unmentioned, unmentioned_batches }: StageFit): string[] {
  if (unmentioned === 0) return [];
  const plants = germination === null ? counted(unmentioned, 'plant') : counted(unmentioned, 'seed');
  const lost = germination === null ? 'to have died' : 'to have failed';
  return [
    `${plants} of ${named(unmentioned_batches)} should have left ${stage} long ago, and no row tells of ${unmentioned === 1 ? 'it' : 'them'}: taken ${lost} and not to have been logged.`,
  ];
}

function named(batches: readonly string[]): string {
  if (batches.length <= MOST_NAMED) return listed(batches);
  return listed([...batches.slice(0, MOST_NAMED - 1), counted(batches.length - MOST_NAMED + 1, 'other')]);
}
