/** The work list as a page for each week, 80 columns wide, with boxes to tick. */

import type { Chore, ChoresResult, VisitChores } from '../../sim/season/ahead/chores.js';
import { shortNames } from '../render/short-names.js';
import { dateText } from '../words/dates.js';
import { counted } from '../words/numbers.js';
import { assumedSentences } from './assumed-words.js';
import { CAUTION } from './caution.js';
import { type ChoreLine, choreLines, TIE } from './chores-words.js';
import { WIDTH, wrap } from './format.js';

/** Narrowest columns of the numbers and of what they stay within. */
const NUMBER = 5;
const WITHIN = 7;
/** Longest name that is told in full. */
const MOST_NAME = 20;

export function choresText(result: ChoresResult): string {
  const parts = [heading(result), ...weeks(result.visits), wrap(`Take care. ${CAUTION.join(' ')}`, WIDTH)];
  return `${parts.join('\n\n')}\n`;
}

function heading(result: ChoresResult): string {
  const { title, from, to, last_visit, futures, seed } = result;
  const since =
    last_visit === null
      ? 'from an empty line, by the plan'
      : `from what stands by the log after ${dateText(last_visit)}`;
  return [
    `${title}: work from ${dateText(from)} to ${dateText(to)}, ${since}. The number to expect, and what 8 of 10 futures stay within (${counted(futures, 'future')} simulated, seed ${seed}).`,
    ...assumedSentences(result),
  ]
    .map((sentence) => wrap(sentence, WIDTH))
    .join('\n');
}

/** From Monday to Sunday, each with a heading of its own. */
function weeks(visits: readonly VisitChores[]): string[] {
  if (visits.length === 0) return ['No visit falls on these days.'];
  const short = shortNames(
    visits.flatMap(({ chores }) => chores.flatMap(namesIn)),
    MOST_NAME,
  );
  const listed = visits.map(({ date, chores }) => ({
    date,
    lines: choreLines(chores, (name) => short.get(name)!),
  }));
  const all = listed.flatMap(({ lines }) => lines);
  const columns = {
    number: Math.max(NUMBER, ...all.map(({ expected }) => expected.length + 2)),
    within: Math.max(WITHIN, ...all.map(({ within }) => within.length)),
  };
  const byWeek = new Map<string, string[]>();
  for (const { date, lines } of listed) {
    const monday = mondayOf(date);
    byWeek.set(monday, [...(byWeek.get(monday) ?? []), visitText(date, lines, columns)]);
  }
  return [...byWeek].map(([monday, days]) =>
    [`Week of ${dateText(monday)}`, '-'.repeat(WIDTH), days.join('\n\n')].join('\n'),
  );
}

function namesIn({ stage, from, batches }: Chore): string[] {
  const all = [stage, from, ...batches.flatMap(({ crop, batch }) => [crop, batch])];
  return all.filter((name) => name !== null);
}

function visitText(
  date: string,
  lines: readonly ChoreLine[],
  columns: { readonly number: number; readonly within: number },
): string {
  if (lines.length === 0) return `${dateText(date)}\n  nothing to be done, as far as can be told`;
  const rows = lines.map(({ verb, expected, within, words }) => {
    const front = `  [ ] ${verb.padEnd(5)}${expected.padStart(columns.number)} ${within.padEnd(columns.within)}  `;
    const broken = wrap(words, WIDTH, ' '.repeat(front.length)).trimStart();
    return `${front}${broken.replaceAll(TIE, ' ')}`;
  });
  return [dateText(date), ...rows].join('\n');
}

function mondayOf(iso: string): string {
  const date = new Date(`${iso}T00:00:00Z`);
  date.setUTCDate(date.getUTCDate() - ((date.getUTCDay() + 6) % 7));
  return date.toISOString().slice(0, 10);
}
