/** The result of a run in a grower's words. Figures come from the result; here they are only laid out. */

import type { State } from '../../sim/models/ledger.js';
import type { Change } from '../../sim/seasons/changes.js';
import type { Limits, Trial } from '../../sim/study/limits.js';
import type { RunResult, StageResult } from '../../sim/study/summary.js';
import {
  columns,
  counted,
  countedMean,
  countText,
  dateText,
  decimalsFor,
  gainText,
  listed,
  percentText,
  tableOfNames,
  thousands,
  WIDTH,
  wrap,
} from './format.js';
import { type StageRow, stageTable } from './stage-table.js';

/** What each state of a hole means to somebody who looks at it. */
const STATE_WORDS: Readonly<Record<State, string>> = {
  growing: 'growing',
  dead: 'dead or failed, not cleared yet',
  unattended: 'ready, nobody came by yet',
  blocked: 'ready, no hole free further on',
  held: 'ready, not wanted yet',
  cleaning: 'being cleaned',
  filling: 'empty: line still filling',
  untended: 'empty: ready plants wait upstream',
  unsupplied: 'empty: nothing ready to come',
};

export function runText(result: RunResult): string {
  const parts = [
    heading(result),
    picks(result),
    firstPick(result),
    holdsBack(result),
    holeDays(result),
    seeds(result),
  ];
  return `${parts.join('\n\n')}\n`;
}

function heading(result: RunResult): string {
  const stopped = result.partial ? ', stopped early: what follows is from these seasons only' : '';
  return wrap(
    `${result.title}: ${counted(result.weeks.length, 'week')} from ${dateText(result.start)}; ${counted(result.seasons, 'season')} simulated (seed ${result.seed})${stopped}.`,
    WIDTH,
  );
}

function picks(result: RunResult): string {
  const title = 'What you will pick';
  const { running } = result;
  if (running === null) {
    return `${title}\n${wrap(`Nothing that can be called a usual week: fewer than 9 in 10 seasons have a first pick before the last week begins. ${whatToChange(result)}`, WIDTH, '  ')}`;
  }
  const heads = (value: number): string => (countText(value) === '1' ? 'head' : 'heads');
  const rows = [
    ['in a usual week', countText(running.p50), heads(running.p50)],
    ['in a bad week (1 in 10)', countText(running.p10), `${heads(running.p10)} or fewer`],
    ['on average', countText(running.mean), `${heads(running.mean)} a week`],
    ['weeks without a pick', percentText(running.without_pick), ''],
  ];
  const width = Math.max(...rows.map((row) => row[1]!.length));
  const lines = rows.map((row) => `  ${row[0]!.padEnd(24)}${row[1]!.padStart(width)} ${row[2]}`.trimEnd());
  const weeks =
    running.weeks === 1 ? 'the last week' : `the ${running.weeks} weeks from ${dateText(running.from)} on`;
  return [title, ...lines, `  (${weeks}, when the line is running)`].join('\n');
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

function firstPick(result: RunResult): string {
  const title = 'When the first pick comes';
  const first = result.first_pick;
  if (first.p50 === null) {
    return `${title}\n  In ${percentText(first.never)} of seasons nothing is picked before the end.`;
  }
  const lines = [`  on ${dateText(first.p50)}, day ${first.p50_days}, in the middle one of all seasons`];
  if (first.p10 !== null && first.p90 !== null) {
    lines.push(
      first.p10 === first.p90
        ? '  on that day in nearly all of them'
        : `  between ${dateText(first.p10)} and ${dateText(first.p90)} in 8 of 10`,
    );
  }
  if (first.never > 0) lines.push(`  never in ${percentText(first.never)} of seasons`);
  return [title, ...lines].join('\n');
}

function holdsBack(result: RunResult): string {
  const title = 'Which stage holds the line back';
  const { limits } = result;
  const lines = [title];
  if (limits === null) {
    const why = result.partial
      ? 'it was stopped before.'
      : 'that takes a running line and at least 2 seasons.';
    lines.push(wrap(`Not tried: ${why}`, WIDTH, '  '));
  } else {
    lines.push(wrap(verdict(limits), WIDTH, '  '));
    lines.push(
      `  How we know: ${limits.seasons} seasons run again with the same luck and one thing changed.`,
    );
    lines.push(...trialRows(limits.trials));
    if (limits.better.length > 0) {
      lines.push(
        wrap(
          `But ${listed(limits.better.map((change) => changeText(change)))} would bring more than any channel.`,
          WIDTH,
          '  ',
        ),
      );
    }
  }
  for (const sentence of seenInLedger(result.stages)) lines.push(wrap(sentence, WIDTH, '  '));
  return lines.join('\n');
}

function verdict(limits: Limits): string {
  switch (limits.by) {
    case 'stage':
      return limits.stages.length === 1
        ? `${limits.stages[0]}: one more channel there brings more heads than in any other stage.`
        : `${listed(limits.stages)}: one more channel brings more heads in each, and none stands out.`;
    case 'sowing':
      return 'None: one more channel brings nothing in any stage, more seeds do. What is sown sets the yield.';
    case 'visits':
      return 'None: one more channel brings nothing in any stage, a visit every day does. Ready plants wait for you.';
    case 'want':
      return 'None: what is wanted is picked, and one more channel brings nothing in any stage.';
    case 'nothing':
      return 'None of them: nothing that was tried brings more heads.';
  }
}

function trialRows(trials: readonly Trial[]): string[] {
  const largest = Math.max(...trials.map((trial) => Math.max(Math.abs(trial.low), Math.abs(trial.high))));
  const decimals = decimalsFor(largest);
  const stages = trials.flatMap(({ change }) => (change.kind === 'channel' ? [change.stage] : []));
  return tableOfNames(stages, (called) => [
    ['    changed', 'heads a week', '95 % interval', ''],
    ...trials.map((trial) => [
      `    ${changeText(trial.change, called)}`,
      gainText(trial.gain, decimals),
      `${gainText(trial.low, decimals)} to ${gainText(trial.high, decimals)}`,
      trialWord(trial),
    ]),
  ]);
}

/** @param called what a stage is called, where there is little room */
function changeText(change: Change, called = (stage: string): string => stage): string {
  switch (change.kind) {
    case 'channel':
      return `+1 channel of ${called(change.stage)} (${counted(change.holes, 'hole')})`;
    case 'seeds':
      return `${change.percent} % more seeds`;
    case 'visits':
      return 'a visit every day';
  }
}

function trialWord(trial: Trial): string {
  if (trial.brings) return 'more';
  if (trial.high < 0) return 'less';
  return trial.low > 0 ? 'hardly' : 'same';
}

/** What the ledger shows of plants that could not go on. */
function seenInLedger(stages: readonly StageResult[]): string[] {
  const sentences: string[] = [];
  for (let s = 0; s + 1 < stages.length; s++) {
    const here = stages[s]!;
    const blocked = here.ledger.blocked.mean / here.hole_days;
    if (blocked > 0) {
      sentences.push(
        `Seen: ${percentText(blocked)} of the hole-days of ${here.name} held plants that were ready while ${stages[s + 1]!.name} had no free hole.`,
      );
    }
  }
  if (sentences.length === 0 && stages.length > 1) {
    sentences.push('Seen: no ready plant ever waited for a free hole.');
  }
  return sentences;
}

function holeDays({ stages }: RunResult): string {
  const states = (Object.keys(STATE_WORDS) as State[]).filter((state) =>
    stages.some((stage) => stage.ledger[state].mean > 0),
  );
  return [
    'Where the hole-days went',
    ...stageTable(
      stages.map(({ name }) => name),
      [
        ...states.map(
          (state): StageRow => [
            STATE_WORDS[state],
            stages.map(({ ledger, hole_days }) => percentText(ledger[state].mean / hole_days)),
          ],
        ),
        ['holes', stages.map(({ holes }) => thousands(holes))],
        ['hole-days in all', stages.map(({ hole_days }) => thousands(hole_days))],
      ],
    ),
  ].join('\n');
}

function seeds(result: RunResult): string {
  const { counts } = result;
  const sown = counts.sown.mean;
  const title = 'What became of the seeds (mean of a season)';
  if (sown === 0) {
    return `${title}\n  Nothing was sown${result.attended.visits === 0 ? ': nobody came' : ''}.`;
  }
  const fates: [string, number][] = [
    ['did not sprout', counts.failed.mean],
    ['died', counts.lost.mean],
    ['thrown away: ready for too long', counts.discarded.mean],
    ['picked', counts.picked_out.mean],
    ['still standing at the end', counts.standing.mean],
  ];
  const rows = [
    ['  sown', countText(sown), ''],
    ...fates.map(([name, value]) => [`  ${name}`, countText(value), percentText(value / sown)]),
  ];
  const lines = [title, ...columns(rows)];
  if (counts.picked.mean !== counts.picked_out.mean) {
    lines.push(
      `  In all ${countedMean(counts.picked.mean, 'pick')}: plants that are cut again count each time.`,
    );
  }
  if (counts.unsown.mean > 0) {
    lines.push(`  Not sown, because no cell was free: ${countedMean(counts.unsown.mean, 'seed')}.`);
  }
  if (counts.wanted.mean > 0) {
    const short = counts.short.mean;
    lines.push(
      wrap(
        `Wanted: ${countedMean(counts.wanted.mean, 'head')}; missing on the day: ${countText(short)} (${percentText(short / counts.wanted.mean)}).`,
        WIDTH,
        '  ',
      ),
    );
  }
  return lines.join('\n');
}
