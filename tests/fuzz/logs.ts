/** Logs beside a line: right ones, sloppy ones and hostile ones. */

import fc from 'fast-check';
import { isoOfDay } from '../../sim/models/dates.js';
import type { Plan } from '../../sim/models/plan.js';
import { ALL_COLUMNS, COLUMNS } from '../../sim/season/log/rows.js';
import { cutAndPut, textSlip } from './slips.js';
import { OBEYED, WORDS, WRONG } from './words.js';

/** Something that is done on a day, if it can be. */
interface Deed {
  readonly what: 'sow' | 'move' | 'pick' | 'lose' | 'clean' | 'stand' | 'tank';
  /** Chooses the batch, the stage that is cleaned, or what is told of the tank. */
  readonly which: number;
  readonly count: number;
  /** Days since the deed before. */
  readonly later: number;
  readonly channel: string;
  readonly grams: string;
  readonly note: string;
}

const deed: fc.Arbitrary<Deed> = fc.record({
  what: fc.constantFrom(
    ...(['sow', 'sow', 'move', 'move', 'move', 'pick', 'pick', 'lose', 'clean', 'stand', 'tank'] as const),
  ),
  which: fc.nat(30),
  count: fc.oneof(
    { weight: 30, arbitrary: fc.integer({ min: 1, max: 9 }) },
    // A million is allowed too; replayed without its line it takes ten times as long, and has a test of its own.
    { weight: 1, arbitrary: fc.constantFrom(100_000, 1_000_001, 1e9) },
  ),
  later: fc.oneof(
    { weight: 40, arbitrary: fc.nat(5) },
    { weight: 1, arbitrary: fc.constantFrom(60, 3640, 900 * 365) },
  ),
  channel: fc.oneof({ weight: 4, arbitrary: fc.constant('') }, fc.constantFrom(...WORDS)),
  grams: fc.constantFrom('', '', '12', '0.5', '999999999'),
  note: fc.oneof(
    { weight: 4, arbitrary: fc.constantFrom('', '', 'died', 'failed', 'discarded', 'since 2027-01-01') },
    fc.constantFrom(...WORDS, ...OBEYED),
  ),
});

type Fields = Record<(typeof ALL_COLUMNS)[number], string>;

/** What rows of the tank tell: litres, ec and note. */
const TANK_TOLD = [
  ['12.5', '1.6', ''],
  ['40', '', 'changed'],
  ['', '7', 'changed; new'],
  ['0', '0', ''],
] as const;

/** The rows of a log that is true, as far as the names of the line can be written in one. */
function trueRows(deeds: readonly Deed[], { start, stages, crops }: Line): Fields[] {
  const rows: Fields[] = [];
  const batches: { readonly name: string; readonly crop: string; readonly standing: number[] }[] = [];
  let day = 0;
  let begun = false;
  for (const { what, which, count, later, ...told } of deeds) {
    day += later;
    const row = (fields: Partial<Fields>): void => {
      const date = isoOfDay(start, day);
      begun ||= fields.action !== 'stand' && what !== 'tank';
      rows.push({
        date,
        action: what,
        crop: '',
        batch: '',
        stage: '',
        count: String(count),
        litres: '',
        ec: '',
        ...told,
        ...fields,
      });
    };
    const batch = batches[which % Math.max(1, batches.length)];
    const at = batch?.standing.findIndex((plants) => plants > 0) ?? -1;
    if (what === 'tank') {
      const [litres, ec, note] = TANK_TOLD[which % TANK_TOLD.length]!;
      row({ count: '', channel: '', grams: '', litres, ec, note });
    } else if (what === 'clean') row({ stage: stages[which % stages.length]! });
    else if (batch === undefined || at === -1 || what === 'sow' || (what === 'stand' && !begun)) {
      const name = which % 7 === 6 ? `${WORDS[which]} ${batches.length}` : `B${batches.length + 1}`;
      const stage = what === 'stand' && !begun ? which % stages.length : 0;
      const crop = crops[which % crops.length]!;
      batches.push({ name, crop, standing: stages.map((_, s) => (s === stage ? count : 0)) });
      const action = what === 'stand' && !begun ? what : 'sow';
      row({ action, crop, batch: name, stage: stages[stage]! });
    } else {
      const plants = Math.min(count, batch.standing[at]!);
      const last = at === stages.length - 1;
      const action = what === 'lose' ? what : last ? 'pick' : 'move';
      batch.standing[at]! -= plants;
      if (action === 'move') batch.standing[at + 1]! += plants;
      const stage = stages[action === 'move' ? at + 1 : at]!;
      row({ action, batch: batch.name, stage, count: String(plants) });
    }
  }
  return rows;
}

/** What of a line its log names. */
interface Line {
  readonly start: string;
  readonly stages: readonly string[];
  readonly crops: readonly string[];
}

/** A log of whatever line there is. */
export interface AnyLog {
  /** Its text beside a line; without one, beside a line of words that nobody would choose. */
  readonly besides: (plan: Plan | null) => string;
}

const NO_LINE: Line = { start: '2027-01-04', stages: WORDS.slice(8, 11), crops: WORDS.slice(18, 22) };

function lineOf(plan: Plan | null): Line {
  if (plan === null) return NO_LINE;
  const names = (list: readonly { readonly name: string }[]) => list.map(({ name }) => name);
  return { start: plan.start, stages: names(plan.stages), crops: names(plan.crops) };
}

const deeds = fc.array(deed, { maxLength: 24, size: 'max' });

/** Nearly always right. */
export const rightLog: fc.Arbitrary<AnyLog> = deeds.map((done) => ({
  besides: (plan) => written(trueRows(done, lineOf(plan)), ','),
}));

/** What is wrong with a row. */
const rowSlip = fc.record({
  at: fc.nat(),
  column: fc.constantFrom(...ALL_COLUMNS),
  how: fc.constantFrom('put', 'put', 'twice', 'swap', 'take away'),
  value: fc.constantFrom(...WRONG.map(String)),
});

function withSlip(rows: readonly Fields[], { at, column, how, value }: Slip): Fields[] {
  if (rows.length === 0) return [];
  const place = at % rows.length;
  const row = rows[place]!;
  if (how === 'put') return rows.with(place, { ...row, [column]: value });
  if (how === 'twice') return rows.toSpliced(place, 0, row);
  if (how === 'take away') return rows.toSpliced(place, 1);
  return rows.toSpliced(place, 1).concat(row);
}

type Slip = typeof rowSlip extends fc.Arbitrary<infer Value> ? Value : never;

/** Any text that is meant as a log, right or not. */
export const anyLog: fc.Arbitrary<AnyLog> = fc
  .record({
    done: deeds,
    separator: fc.constantFrom(',', ',', ';', '\t'),
    rowSlips: fc.array(rowSlip, { maxLength: 2 }),
    textSlips: fc.array(textSlip, { maxLength: 2 }),
  })
  .map(({ done, separator, rowSlips, textSlips }) => ({
    besides: (plan) => {
      const rows = rowSlips.reduce(withSlip, trueRows(done, lineOf(plan)));
      return textSlips.reduce(cutAndPut, written(rows, separator));
    },
  }));

function written(rows: readonly Fields[], separator: string): string {
  const field = (text: string) => (/[",;\t\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
  // A log in which the tank is not told of has nine columns.
  const told = rows.some((row) => row.action === 'tank' || row.litres !== '' || row.ec !== '');
  const columns = told ? ALL_COLUMNS : COLUMNS;
  const lines = rows.map((row) => columns.map((column) => field(row[column])).join(separator));
  return `${[columns.join(separator), ...lines].join('\n')}\n`;
}
