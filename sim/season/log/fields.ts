/** The fields of one row, each looked at by itself: is it a word, a whole number, a mass, a name? */

import { SEEDS } from '../../models/limits.js';
import { nearest } from '../../models/nearest.js';
import { type Column, fieldText, type LogFaults } from './faults.js';
import { type Measured, measured } from './measures.js';
import { ACTIONS, ALL_COLUMNS, type LineAction, type LogAction, TANK_COLUMNS } from './rows.js';
import { emptyIn, isChanged, type TankDraft } from './tank.js';

/** A row of which each field is known, but not yet what the other rows make of it. */
export interface RowDraft {
  readonly line: number;
  /** As the file writes it, or empty; ISO 8601 once the whole file has been seen. */
  date: string;
  /** null if the field holds no action. */
  readonly action: LineAction | null;
  crop: string;
  batch: string;
  stage: string;
  channel: string | null;
  /** NaN if the field holds no count. */
  readonly count: number;
  readonly grams: number | null;
  readonly note: string | null;
}

/** The most that one row can count: as many as may be sown at once. */
const MOST = SEEDS.most;
const LONGEST_NAME = 60;

const WHOLE = `a whole number from 1 to ${MOST}`;
const NAME = `a name of at most ${LONGEST_NAME} characters on one line`;

/** What people call the actions. */
const CALLED: ReadonlyMap<string, LogAction> = new Map([
  ['clear', 'lose'],
  ['discard', 'lose'],
  ['harvest', 'pick'],
  ['transplant', 'move'],
]);

/** The action that a word most likely means; null if none is near. */
export function actionMeant(word: string): LogAction | null {
  return CALLED.get(word.toLowerCase()) ?? (nearest(word, ACTIONS) as LogAction | null);
}

export class FieldReader {
  readonly #place: Readonly<Record<Column, number>>;
  /** The columns of the tank that the file has. */
  readonly #tankColumns: readonly (typeof TANK_COLUMNS)[number][];
  readonly #separator: string;
  readonly #faults: LogFaults;

  /** @param columns what stands where; null for what is not read */
  constructor(columns: readonly (Column | null)[], separator: string, faults: LogFaults) {
    const places = ALL_COLUMNS.map((name) => [name, columns.indexOf(name)]);
    this.#place = Object.fromEntries(places) as Record<Column, number>;
    this.#tankColumns = TANK_COLUMNS.filter((name) => columns.includes(name));
    this.#separator = separator;
    this.#faults = faults;
  }

  /** The row as a draft; what is wrong with its fields goes to the faults. */
  read(fields: readonly string[], line: number): RowDraft | TankDraft {
    const place = this.#place;
    const date = fields[place.date] ?? '';
    if (date === '') this.#nothing('date', line, 'the date on which it was done, as YYYY-MM-DD');
    const action = this.#action(fields[place.action] ?? '', line);
    if (action === 'tank') return this.#tank(fields, line, date);
    if (this.#tankColumns.length > 0) this.#checkEmpty(action, fields, line);
    const batch = this.#name('batch', fields[place.batch] ?? '', line);
    const crop = this.#name('crop', fields[place.crop] ?? '', line);
    if (action !== null && action !== 'clean' && batch === '') {
      this.#nothing('batch', line, `the name of the batch that was ${PAST[action]}`);
    }
    if (action === 'sow' && crop === '') this.#nothing('crop', line, 'the crop that was sown');
    return {
      line,
      date,
      action,
      crop,
      batch,
      stage: this.#name('stage', fields[place.stage] ?? '', line),
      channel: this.#name('channel', fields[place.channel] ?? '', line) || null,
      count: this.#count(fields[place.count] ?? '', line),
      grams: this.#measured('grams', fields, line),
      note: fields[place.note] || null,
    };
  }

  #tank(fields: readonly string[], line: number, date: string): TankDraft {
    this.#checkEmpty('tank', fields, line);
    const note = fields[this.#place.note] || null;
    const changed = isChanged(note);
    const litres = this.#measured('litres', fields, line);
    const ec = this.#measured('ec', fields, line);
    if (!changed && this.#tankColumns.every((column) => fields[this.#place[column]] === '')) {
      const expected = 'the litres topped up, or ec, or the note changed for a new filling';
      const advice =
        this.#tankColumns.length > 0 ? '' : `The header has no column ${TANK_COLUMNS.join(' or ')}.`;
      this.#faults.add({ line, column: 'litres', found: 'nothing', expected, advice });
    }
    return { line, date, action: 'tank', litres, ec, changed, note };
  }

  /**
   * What remains of a row with a wrong number of fields: its batch, so that the batch's other rows are not faults too.
   * Its fields may have slipped, so nothing is said of them.
   */
  salvage(fields: readonly string[], line: number): RowDraft {
    const { batch, crop } = this.#place;
    return {
      line,
      date: '',
      action: null,
      crop: fields[crop] ?? '',
      batch: fields[batch] ?? '',
      stage: '',
      channel: null,
      count: Number.NaN,
      grams: null,
      note: null,
    };
  }

  /** What has no meaning in a row of this action. */
  #checkEmpty(action: LogAction | null, fields: readonly string[], line: number): void {
    const { columns, ...why } = emptyIn(action);
    for (const column of columns) {
      const text = fields[this.#place[column]] ?? '';
      if (text !== '') this.#faults.add({ line, column, found: fieldText(text), ...why, kind: why.expected });
    }
  }

  #nothing(column: Column, line: number, expected: string): void {
    this.#faults.add({ line, column, found: 'nothing', expected });
  }

  #action(text: string, line: number): LogAction | null {
    if (isAction(text)) return text;
    const lower = text.toLowerCase();
    if (isAction(lower)) return lower;
    this.#faults.add({
      line,
      column: 'action',
      found: fieldText(text),
      expected: `one of ${ACTIONS.join(', ')}`,
      names: () => ACTIONS,
      word: actionMeant(text) ?? text,
      kind: text,
    });
    return null;
  }

  #name(column: Column, text: string, line: number): string {
    if (text.length <= LONGEST_NAME && !text.includes('\n')) return text;
    this.#faults.add({ line, column, found: fieldText(text), expected: NAME });
    return text;
  }

  #count(text: string, line: number): number {
    const count = /^\d{1,10}$/.test(text) ? Number(text) : Number.NaN;
    if (count >= 1 && count <= MOST) return count;
    const whole = /^(\d+)[.,]0+$/.exec(text);
    const advice = whole === null ? '' : `Write it without decimals: ${whole[1]}.`;
    this.#faults.add({ line, column: 'count', found: fieldText(text), expected: WHOLE, advice });
    return Number.NaN;
  }

  #measured(column: Measured, fields: readonly string[], line: number): number | null {
    const text = fields[this.#place[column]] ?? '';
    if (text === '') return null;
    const value = measured(column, text, this.#separator);
    if (typeof value === 'number') return value;
    this.#faults.add({ line, column, found: fieldText(text), ...value });
    return null;
  }
}

const PAST: Readonly<Record<Exclude<LineAction, 'clean'>, string>> = {
  sow: 'sown',
  move: 'moved',
  pick: 'picked',
  lose: 'lost',
  stand: 'standing there',
};

function isAction(text: string): text is LogAction {
  return (ACTIONS as readonly string[]).includes(text);
}
