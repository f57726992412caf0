/**
 * The second round over a log: the rows one after the other, against what stands in the line.
 *
 * After a slip the batch in question is in doubt: how many plants of it stand where is no longer known, so its rows are
 * not counted any more, and one slip does not give a hundred faults. Names are still looked at.
 */

import { isoOfDay } from '../../models/dates.js';
import { LONGEST_SEASON, WEEKS } from '../../models/limits.js';
import * as route from '../../models/route.js';
import type { LogDates } from './dates.js';
import { fieldText, type LogFaults } from './faults.js';
import type { RowDraft } from './fields.js';
import type { LogRow } from './rows.js';
import { type Slip, Standing } from './standing.js';
import type { TankDraft } from './tank.js';

/** What a log needs to know of a crop. */
export interface LoggedCrop {
  readonly name: string;
  /** Picks per plant. */
  readonly cuts: number;
}

/**
 * Fills in what the rows leave out (dates become ISO 8601; crops and stages are completed) and tells every fault.
 *
 * @param tank the rows of the tank, which have nothing to do with what stands: only their dates are looked at
 * @param stages names of the line's stages in their order
 * @param crops of the scenario; null if it is not known
 * @returns what stands after the last row; of use only if no fault was found
 */
export function checkRows(
  drafts: readonly RowDraft[],
  tank: readonly TankDraft[],
  stages: readonly string[],
  crops: readonly LoggedCrop[] | null,
  dates: LogDates,
  faults: LogFaults,
): Standing {
  const falling = checkDates(inOrder(drafts, tank), dates, faults);
  const cuts = new Map((crops ?? []).map((crop) => [crop.name, crop.cuts]));
  const standing = new Standing(stages, (crop) => cuts.get(crop) ?? 1);
  // Rows from the newest to the oldest cannot be counted: every batch would be picked before it is sown.
  if (falling) return standing;
  const check = new RowCheck(standing, crops, sowLines(drafts), faults);
  for (const draft of drafts) check.take(draft);
  return standing;
}

/** A row of whatever kind. */
type Dated = Pick<RowDraft, 'line' | 'date'>;

/** All rows as they stand in the file. */
function inOrder(drafts: readonly RowDraft[], tank: readonly TankDraft[]): readonly Dated[] {
  return tank.length === 0 ? drafts : [...drafts, ...tank].sort((a, b) => a.line - b.line);
}

/** Dates as ISO 8601, each at or after the one before it. @returns whether the rows run from the newest to the oldest */
function checkDates(drafts: readonly Dated[], dates: LogDates, faults: LogFaults): boolean {
  const dated: Dated[] = [];
  let rises = 0;
  const falls: { line: number; written: string; before: Dated }[] = [];
  for (const draft of drafts) {
    const written = draft.date;
    if (written === '') continue;
    const date = dates.iso(written, draft.line, faults);
    if (date === null) continue;
    draft.date = date;
    const before = dated.at(-1);
    if (before !== undefined && before.date < date) rises++;
    if (before !== undefined && before.date > date) falls.push({ line: draft.line, written, before });
    dated.push(draft);
  }
  checkSpan(dated, faults);
  const falling = falls.length > rises && falls.length > 1;
  for (const { line, written, before } of falling ? falls.slice(0, 1) : falls) {
    faults.add({
      line,
      column: 'date',
      found: `${fieldText(written)}, although line ${before.line} is later (${before.date})`,
      expected: 'rows in the order of their dates, the oldest first',
      advice: falling ? 'The rows run from the newest to the oldest: sort them by date.' : '',
    });
  }
  return falling;
}

/**
 * A slip of the year makes a log of hundreds of years: it is told of the first row after the jump.
 * @param dated rows whose date is known
 */
function checkSpan(dated: readonly Dated[], faults: LogFaults): void {
  const [first] = dated;
  if (first === undefined) return;
  const last = isoOfDay(first.date, LONGEST_SEASON);
  const place = dated.findIndex(({ date }) => date > last);
  if (place < 0) return;
  const [before, later] = [dated[place - 1]!, dated[place]!];
  faults.add({
    line: later.line,
    column: 'date',
    found: `${later.date}, although line ${before.line} is of ${before.date}`,
    expected: `all rows within ${WEEKS.most} weeks, the longest season`,
    advice: 'One of the two is probably of another year: correct it, or keep one log for each season.',
  });
}

/** The line on which each batch is sown. */
function sowLines(drafts: readonly RowDraft[]): Map<string, number> {
  const lines = new Map<string, number>();
  for (const { action, batch, line } of drafts)
    if (action === 'sow' && !lines.has(batch)) lines.set(batch, line);
  return lines;
}

class RowCheck {
  readonly #standing: Standing;
  readonly #crops: readonly LoggedCrop[] | null;
  readonly #sowLines: ReadonlyMap<string, number>;
  readonly #faults: LogFaults;
  readonly #doubted = new Set<string>();

  constructor(
    standing: Standing,
    crops: readonly LoggedCrop[] | null,
    sowLines: ReadonlyMap<string, number>,
    faults: LogFaults,
  ) {
    this.#standing = standing;
    this.#crops = crops;
    this.#sowLines = sowLines;
    this.#faults = faults;
  }

  take(draft: RowDraft): void {
    if (this.#holds(draft)) this.#standing.apply(draft as LogRow);
    else this.#doubt(draft);
  }

  /** Whether the row can be counted; what is wrong with it is told. */
  #holds(draft: RowDraft): boolean {
    if (draft.action === null || (draft.batch === '' && draft.action !== 'clean')) return false;
    const complete = this.#complete(draft);
    const row = draft as LogRow;
    const named = this.#standing.nameSlips(row);
    for (const slip of named) this.#tell(slip, row);
    if (!complete || named.length > 0) return false;
    if (this.#doubted.has(draft.batch) || Number.isNaN(draft.count)) return false;
    const counted = this.#standing.countSlip(row);
    if (counted !== null) this.#tell(counted, row);
    return counted === null;
  }

  /** Fill in what the row leaves out. @returns false if a stage is missing that only the grower knows */
  #complete(draft: RowDraft): boolean {
    const standing = this.#standing;
    const { stages } = standing;
    const { action } = draft;
    if (draft.stage === '') {
      if (action === 'sow') draft.stage = stages[route.first(standing)]!;
      else if (action === 'pick') draft.stage = stages[route.last(standing)]!;
      else {
        this.#faults.add({
          line: draft.line,
          column: 'stage',
          found: 'nothing',
          expected: `${action === 'move' ? 'the stage moved into' : 'the stage'}: one of ${stages.join(', ')}`,
        });
        return false;
      }
    }
    const batch = this.#standing.batch(draft.batch);
    if (action === 'sow' || (action === 'stand' && batch === undefined)) this.#checkCrop(draft);
    else if (action !== 'clean') {
      // Also one text for all rows of a batch: a long log then takes less memory.
      if (batch !== undefined && (draft.crop === '' || draft.crop === batch.crop)) draft.crop = batch.crop;
    }
    return true;
  }

  /** A crop that is sown, or stands, is one of the scenario's. */
  #checkCrop({ crop, line }: RowDraft): void {
    if (this.#crops === null || crop === '' || this.#crops.some(({ name }) => name === crop)) return;
    const names = this.#crops.map(({ name }) => name);
    this.#faults.add({
      line,
      column: 'crop',
      found: fieldText(crop),
      expected: `one of the crops ${names.join(', ')}`,
      names: () => names,
      word: crop,
      kind: crop,
    });
  }

  /** From here on the batch's plants are not counted; a name that nobody knows is told once. */
  #doubt(draft: RowDraft): void {
    if (draft.batch === '' || draft.action === 'clean') return;
    this.#doubted.add(draft.batch);
    if (this.#standing.batch(draft.batch) === undefined) this.#standing.know(draft);
  }

  #tell(slip: Slip, { line, batch, stage, crop }: LogRow): void {
    const later = slip.column === 'batch' ? this.#sowLines.get(batch) : undefined;
    const word = { batch, stage, crop, count: '', note: '' }[slip.column];
    this.#faults.add({
      line,
      column: slip.column,
      found: slip.found,
      expected: slip.expected,
      advice: later !== undefined && later > line ? `It is sown only on line ${later}.` : slip.advice,
      names: slip.names,
      word,
      ...(slip.column === 'count' || slip.column === 'note' ? {} : { kind: `${word} ${slip.expected}` }),
    });
  }
}
