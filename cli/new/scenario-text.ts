/** The scenario of five answers: its values, and its text with a word on each of them. */

import { isoOfDay, WEEKDAYS, weekdayOfDay } from '../../sim/models/dates.js';
import { type FirstSowing, firstSowing } from '../../sim/models/first-sowing.js';
import { WEEKS } from '../../sim/models/limits.js';
import { readScenario } from '../../sim/scenario/read.js';
import { inOneLine } from '../render/obeyed.js';
import { daysText } from '../words/dates.js';
import { counted } from '../words/numbers.js';
import { inShell } from '../words/shell.js';
import type { Answers } from './answers.js';
import { USUAL } from './kinds.js';

/** Of a season, if plants are picked for so long in it [weeks]. */
const USUAL_SEASON = 26;
const LEAST_PICKING = 13;

/** The Monday that comes, or today if it is one. ISO 8601. */
export function comingMonday(today: string): string {
  return isoOfDay(today, (7 - weekdayOfDay(today, 0)) % 7);
}

/** What is sown at first. @param start first day, ISO 8601 */
export function sowingFor(answers: Answers, start: string): FirstSowing {
  // Absences are passed over: the sowing is that of the weeks between them.
  const data = scenarioData({ ...answers, away: [] }, start, { refill: true });
  const read = readScenario(JSON.stringify(data));
  if (!read.ok) throw new RangeError(`answers that no scenario can have: ${JSON.stringify(read.faults)}`);
  const { visits, heads } = answers;
  return firstSowing(read.value.plan, visits === 'daily' ? WEEKDAYS : visits, heads);
}

/** The values of the scenario. @param sow of its crop */
export function scenarioData({ stages, crop, visits, away }: Answers, start: string, sow: object) {
  const growing = crop.days.map((days, s) => [
    stages[s]!.name,
    { days, spread: USUAL.spread, ...(s === 0 ? {} : { loss: USUAL.loss }), keeps: USUAL.keeps },
  ]);
  return {
    title: `A line of ${crop.name}`,
    start,
    weeks: seasonWeeks(crop.days),
    seed: 1,
    visits,
    away,
    stages,
    crops: [{ name: crop.name, germination: USUAL.germination, sow, stages: Object.fromEntries(growing) }],
  };
}

function seasonWeeks(days: readonly number[]): number {
  const growing = Math.ceil(days.reduce((sum, stay) => sum + stay, 0) / 7);
  return Math.min(WEEKS.most, Math.max(USUAL_SEASON, growing + LEAST_PICKING));
}

/** A line of the file and what is said of it. */
type Line = readonly [code: string, note?: string];

/**
 * The text of the file.
 * @param start first day, ISO 8601 @param asked whether it was answered
 * @param file its name, for the commands that are named
 */
export function scenarioText(
  answers: Answers,
  { start, asked, sowing, file }: { start: string; asked: boolean; sowing: FirstSowing; file: string },
): string {
  const { stages, crop, visits, heads } = answers;
  const { on, seeds } = sowing;
  const data = scenarioData(answers, start, { on, seeds });
  const name = inShell(inOneLine(file, '_'));
  return [
    `# ${data.title}, written from your answers by evensow new.`,
    '#   [you]    what you answered',
    '#   [usual]  common practice, from memory: a beginning. Measure your own; after a season of keeping a log,',
    '#            evensow fit tells them.',
    ...noted([
      [`title: ${scalar(data.title)}`],
      [
        `start: ${start}`,
        asked ? '[you] day of the first sowing' : 'day of the first sowing: the first Monday that came',
      ],
      [`weeks: ${data.weeks}`, 'length of a season that is simulated'],
      ['seed: 1', 'chooses the luck: the same number, the same luck'],
      [`visits: ${listText(visits)}`, '[you] nothing is sown, moved or picked on other days'],
    ]),
    ...awayLines(answers),
    '',
    '# [you] The stages, in the order in which plants pass through them; holes: in each channel or tray.',
    'stages:',
    ...noted(
      stages.map(
        ({ name, channels, holes }): Line => [
          `  - {name: ${scalar(name)}, channels: ${channels}, holes: ${holes}}`,
          counted(channels * holes, 'hole'),
        ],
      ),
    ),
    '',
    '# What grows. Others go below it, in the same way; they share the holes.',
    'crops:',
    ...noted([
      [`  - name: ${scalar(crop.name)}`, '[you]'],
      [`    germination: ${USUAL.germination}`, `[usual] ${100 * USUAL.germination} of 100 seeds sprout`],
    ]),
    ...wishLines(heads, sowing).map((line) => `    # ${line}`),
    ...noted([[`    sow: {on: ${listText(on)}, seeds: ${seeds}}`, 'weekdays of sowing, and seeds at each']]),
    `    # days: from coming in to being ready, on average (${crop.origin === null ? '[you]' : `[usual] ${crop.origin}`});`,
    '    # spread: how much that varies, standard deviation over mean [usual]; loss: share of the plants that die',
    '    # there [usual]; keeps: days that a ready plant stays good where it stands [usual].',
    '    stages:',
    ...stages.map(({ name }, s) => {
      const loss = s === 0 ? '' : `, loss: ${USUAL.loss}`;
      return `      ${scalar(name)}: {days: ${crop.days[s]}, spread: ${USUAL.spread}${loss}, keeps: ${USUAL.keeps}}`;
    }),
    '',
    '# What comes next, in the folder of this file:',
    ...noted(
      [
        [`#   evensow check ${name}`, 'after each change: is all of it right?'],
        [`#   evensow run ${name}`, 'what it yields, and what holds it back'],
        [
          `#   evensow search ${name} --heads ${heads}`,
          `the cheapest plan for ${counted(heads, 'head')} a week`,
        ],
        [`#   evensow watch ${name}`, 'see it on the screen, hole by hole'],
        [`#   evensow chores ${name}`, 'the work of the first two weeks'],
      ],
      '   ',
    ),
    '',
  ].join('\n');
}

function awayLines({ away }: Answers): string[] {
  if (away.length === 0) return ['away: [] # [you] never. Else: [{from: 2027-02-08, to: 2027-02-14}]'];
  return [
    'away: # [you] first and last day on which nobody comes',
    ...noted(away.map(({ from, to }): Line => [`  - {from: ${from}, to: ${to}}`, daysText(from, to)])),
  ];
}

/** Why so much is sown. */
function wishLines(heads: number, { on, seeds, most }: FirstSowing): string[] {
  const sown = counted(on.length * seeds, 'seed');
  const wish = `[you] ${counted(heads, 'head')} a week would be welcome.`;
  return most < heads
    ? [
        `${wish} The holes take in seedlings for about ${most.toFixed(1)} a week,`,
        `if nothing varies: so it begins with ${sown} a week.`,
      ]
    : [
        `${wish} If nothing varies that takes ${sown} a week. A bad week`,
        'brings less: what it takes to have them in most weeks, evensow search tells.',
      ];
}

/** Lines with what is said of them below each other. */
function noted(lines: readonly Line[], between = ' # '): string[] {
  const width = Math.max(...lines.map(([code]) => code.length));
  return lines.map(([code, note]) => (note === undefined ? code : `${code.padEnd(width)}${between}${note}`));
}

/** A name, in quotes unless it can be nothing else than a text. */
function scalar(text: string): string {
  return /^[a-z][a-z0-9]*([ -][a-z0-9]+)*$/i.test(text) && !/^(true|false|null)$/i.test(text)
    ? text
    : JSON.stringify(text);
}

function listText(items: 'daily' | readonly string[]): string {
  return items === 'daily' ? items : `[${items.join(', ')}]`;
}
