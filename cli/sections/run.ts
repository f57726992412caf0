/** The result of a run in a grower's words. Figures come from the result; here they are only told. */

import type { HoleState } from '../../sim/models/ledger.js';
import * as route from '../../sim/models/route.js';
import type { Bottleneck } from '../../sim/study/bottleneck.js';
import type { RunResult, StageResult } from '../../sim/study/summary.js';
import type { WeekFigures } from '../../sim/study/week-figures.js';
import { dateText } from '../words/dates.js';
import { bringsMore, changeText, effectsForm } from '../words/limits.js';
import {
  COUNT,
  counted,
  countText,
  figureText,
  intervalText,
  listed,
  orFewer,
  percentText,
  plural,
  SHARE,
} from '../words/numbers.js';
import { STATE_WORDS } from '../words/states.js';
import { holeDayTable, stoppedEarly, weeksFrom } from './season.js';
import { type Block, type Cell, figure, type Rows, type Section, section, table } from './section.js';
import { takesInBrief, takesInFull } from './takes/takes.js';
import { PER_CENT, trialTable } from './trials.js';

/** More weeks than these are counted, not named. */
const MOST_WEEKS = 4;

/** Fewer plants a season than this would read as none. */
const LEAST_TOLD = 0.05;

/** Less of the hole-days of a stage than this, held by plants that wait for a hole, tells nothing. */
const LEAST_BLOCKED = 0.001;

/** @param all whether all is told of what the plan takes, not the outcome only */
export function runSections(result: RunResult, all = false): Section[] {
  return [
    section(
      null,
      `${result.title}: ${counted(result.weeks.length, 'week')} from ${dateText(result.start)}; ${counted(result.seasons, 'season')} simulated (seed ${result.seed})${stoppedEarly(result.partial)}.`,
    ),
    ...answerSections(result),
    ...holeDaySections(result),
    ...(all ? takesInFull(result) : takesInBrief(result)),
  ];
}

/** What the line gives, and what holds it back. */
export function answerSections(result: RunResult): Section[] {
  return [
    section('What you will pick', ...picks(result)),
    section('When the first pick comes', ...firstPick(result)),
    section('Which stage holds the line back', ...holdsBack(result)),
  ];
}

/** What became of the holes, and of the seeds. */
export function holeDaySections(result: RunResult): Section[] {
  return [
    section('Where the hole-days went', holeDays(result)),
    section('What became of the seeds (mean of a season)', ...seeds(result)),
  ];
}

/** The first answer of a plan that was just begun: what it yields and when. */
export function firstAnswerSections(result: RunResult): Section[] {
  const [what, picked, first] = runSections(result);
  const { limits } = result;
  return [
    what!,
    picked!,
    first!,
    ...(limits === null ? [] : [section('Which stage holds the line back', verdict(limits))]),
  ];
}

/** The weeks: one row each. */
export function runRows({ weeks }: RunResult): Rows {
  return [
    ['start', 'mean', 'se', 'p10', 'p50', 'p90'],
    ...weeks.map(({ start, mean, se, p10, p50, p90 }) => [start, mean, se, p10, p50, p90]),
  ];
}

function picks(result: RunResult): Block[] {
  const { running } = result;
  if (running === null) {
    return [
      `Nothing that can be called a usual week: fewer than 9 in 10 seasons have a first pick before the last week begins. ${whatToChange(result)}`,
    ];
  }
  const heads = (value: number, more = ''): Cell =>
    figure(value, COUNT, plural(countText(value), 'head') + more);
  const { without_absence: present, wanted } = running;
  const rows = (what: string, of: (weeks: WeekFigures) => Cell): Cell[][] => [
    [what, of(running)],
    ...(present === null ? [] : [['the same, if nobody were away', of(present)]]),
  ];
  const missing = ({ missing }: WeekFigures): Cell =>
    figure(missing, COUNT, wanted ? `(${percentText(missing! / wanted)})` : '');
  return [
    table([
      ['in a usual week', heads(running.p50)],
      ...rows('in a bad week (1 in 10)', ({ p10 }) => heads(p10, orFewer(p10))),
      ['on average', heads(running.mean, ' a week')],
      ['weeks without a pick', figure(running.without_pick, SHARE)],
      ...(wanted === null ? [] : rows(`missing of ${counted(wanted, 'head')} wanted`, missing)),
    ]),
    `(${weeksFrom(running)}, when the line is running)`,
    ...(running.bad_by_absence.length === 0
      ? []
      : [`Bad by the absence: ${weeksText(running.bad_by_absence)}.`]),
  ];
}

/** `the weeks from Mon 8 Feb 2027, Mon 15 Feb 2027 and 2 more` */
function weeksText(starts: readonly string[]): string {
  const named = starts.slice(0, MOST_WEEKS).map(dateText);
  const more = starts.length - named.length;
  return `the ${starts.length === 1 ? 'week' : 'weeks'} from ${listed(more > 0 ? [...named, `${more} more`] : named)}`;
}

/** What keeps a line from running. */
function whatToChange({ attended, weeks }: RunResult): string {
  const { visits, pick_days, last_pick_day } = attended;
  if (visits === 0) return 'Nobody comes in this season: change visits, or shorten away.';
  if (pick_days === 0)
    return 'Nobody comes on a day on which heads are wanted: let visits and want have days in common, and shorten away.';
  if (last_pick_day !== null && last_pick_day < weeks.at(-1)!.start)
    return `Nobody comes to pick after ${dateText(last_pick_day)}: shorten away, or let the season run longer (weeks).`;
  return 'Let the season run longer (weeks), or sow earlier.';
}

function firstPick({ first_pick: { p10, p50, p90, p50_days, never } }: RunResult): string[] {
  if (p50 === null) return [`In ${percentText(never)} of seasons nothing is picked before the end.`];
  const lines = [`on ${dateText(p50)}, day ${p50_days}, in the middle one of all seasons`];
  if (p10 !== null && p90 !== null) {
    lines.push(
      p10 === p90
        ? 'on that day in nearly all of them'
        : `between ${dateText(p10)} and ${dateText(p90)} in 8 of 10`,
    );
  }
  return never > 0 ? [...lines, `never in ${percentText(never)} of seasons`] : lines;
}

function holdsBack({ limits, partial, stages }: RunResult): Block[] {
  if (limits === null) {
    const why = partial ? 'it was stopped before.' : 'that takes a running line and at least 2 seasons.';
    return [`Not tried: ${why}`, ...seenInLedger(stages)];
  }
  const { seasons, trials, risk } = limits;
  return [
    verdict(limits),
    section(
      `How we know: ${seasons} seasons run again with the same luck and one thing changed.`,
      trialTable(trials.map((trial) => ({ ...trial, mean: trial.gain }))),
      PER_CENT,
    ),
    ...bringMore(limits),
    riskText(risk),
    ...seenInLedger(stages),
  ];
}

function bringMore(limits: Bottleneck): string[] {
  const more = bringsMore(limits);
  if (more === null) return [];
  const than = limits.by === 'stage' ? 'any channel' : 'more seeds';
  const named = listed(more.changes.map(changeText));
  return [
    more.forWhatItAdds
      ? `For what it adds, this brings more than ${than}: ${named}.`
      : `More than ${than} brings, in all or for what it adds: ${named}.`,
  ];
}

const NO_STAGE: Readonly<Record<Exclude<Bottleneck['by'], 'stage'>, string>> = {
  sowing:
    'None: more channels bring hardly anything in any stage, more seeds do. What is sown sets the yield.',
  visits:
    'None: more channels bring hardly anything in any stage, a visit every day does. Ready plants wait for you.',
  away: 'None: more channels bring hardly anything in any stage; if nobody were away, there would be more heads.',
  want: 'None: what is wanted is picked, and more channels bring hardly anything in any stage.',
  nothing: 'None of them: nothing that was tried brings heads worth the name.',
};

function verdict({ by, stages }: Bottleneck): string {
  if (by !== 'stage') return NO_STAGE[by];
  return stages.length === 1
    ? `${stages[0]}: more room there brings more heads, for its share, than in any other stage.`
    : `${listed(stages)}: more room brings more heads in each, and none stands out.`;
}

function riskText(risk: Bottleneck['risk']): string {
  const { change, gain, low, high } = risk;
  const form = effectsForm([risk]);
  const what =
    low <= 0 && high >= 0 ? 'no loss that could be told' : `${figureText(gain, form)} heads a week`;
  return `If ${changeText(change)}: ${what} (${intervalText({ low, high }, form)}) once the line runs.`;
}

/** What the ledger shows of plants that could not go on. */
function seenInLedger(stages: readonly StageResult[]): string[] {
  const sentences = stages.flatMap(({ name, ledger, hole_days }, s) => {
    const blocked = ledger.blocked.mean / hole_days;
    if (blocked < LEAST_BLOCKED || route.isLast({ stages }, s)) return [];
    const next = stages[route.next({ stages }, s)]!.name;
    return `Seen: ${percentText(blocked)} of the hole-days of ${name} held plants that were ready while ${next} had no free hole.`;
  });
  if (sentences.length > 0 || stages.length === 1) return sentences;
  const ever = stages.some(({ ledger }) => ledger.blocked.mean > 0);
  return [`Seen: ${ever ? 'hardly a' : 'no'} ready plant ever waited for a free hole.`];
}

function holeDays({ stages }: RunResult): Block {
  const states = (Object.keys(STATE_WORDS) as HoleState[]).filter((state) =>
    stages.some((stage) => stage.ledger[state].mean > 0),
  );
  const rows = states.map((state) => ({
    what: STATE_WORDS[state].text,
    of: ({ ledger }: StageResult) => ledger[state].mean,
  }));
  return holeDayTable(rows, stages);
}

function seeds({ counts, attended, stages, weeks }: RunResult): Block[] {
  const sown = counts.sown.mean;
  if (sown === 0) return [`Nothing was sown${attended.visits === 0 ? ': nobody came' : ''}.`];
  const fates: [string, number][] = [
    ['did not sprout', counts.failed.mean],
    ['died', counts.lost.mean],
    ['thrown away: ready for too long', counts.discarded.mean],
    ['picked', counts.picked_out.mean],
    ['still standing at the end', counts.standing.mean],
  ];
  const blocks: Block[] = [
    table([
      ['sown', figure(sown, COUNT), ''],
      ...fates.map(([fate, value]) => [fate, figure(value, COUNT), figure(value / sown, SHARE)]),
    ]),
  ];
  if (counts.picked.mean !== counts.picked_out.mean)
    blocks.push(`In all ${counted(counts.picked.mean, 'pick')}: plants that are cut again count each time.`);
  if (counts.unsown.mean > 0)
    blocks.push(`Not sown, because no cell was free: ${counted(counts.unsown.mean, 'seed')}.`);
  return [...blocks, ...thrownAway(stages, weeks)];
}

/** Where and when most plants were thrown away. */
function thrownAway(stages: readonly StageResult[], weeks: RunResult['weeks']): string[] {
  return stages.flatMap(({ name, thrown_away: { mean, weeks: plants } }) => {
    if (mean < LEAST_TOLD) return [];
    // The fewest weeks that hold half of them.
    const order = [...plants.keys()].sort((a, b) => plants[b]! - plants[a]! || a - b);
    let sum = 0;
    const half = order.filter((week) => {
      const needed = sum < mean / 2;
      sum += plants[week]!;
      return needed;
    });
    const when =
      half.length <= MOST_WEEKS
        ? `at least half of them in ${weeksText(half.sort((a, b) => a - b).map((week) => weeks[week]!.start))}`
        : `all through the season, from ${dateText(weeks[plants.findIndex((count) => count > 0)]!.start)} on`;
    return [`Thrown away in ${name}: ${counted(mean, 'plant')}, ${when}.`];
  });
}
