/** What is said after a row has been logged: what was done, and what now stands of the batch. */

import { actionMeant } from '../../sim/season/log/fields.js';
import type { LogAction, LogRow, TankRow } from '../../sim/season/log/rows.js';
import { type Since, sinceOf } from '../../sim/season/log/since.js';
import { UNNAMED_STAGE } from '../../sim/season/log/stages.js';
import type { BatchStanding } from '../../sim/season/log/standing.js';
import { dateText } from './dates.js';
import { counted, thousands } from './numbers.js';

const EXAMPLES: Readonly<Record<LogAction, string>> = {
  sow: 'sow 6 butterhead',
  move: 'move 5 B12 finishing',
  pick: 'pick 4 B9',
  lose: 'lose 2 B12 nursery',
  stand: 'stand 12 B3 nursery --crop butterhead --since 2027-02-01',
  clean: 'clean 9 finishing --channel F3',
  tank: 'tank --litres 12.5 --ec 1.6',
};

/** How a row is typed. @param action as typed; of every action if it means none */
export function logExample(action: string): string {
  const meant = actionMeant(action);
  if (meant !== null) return `Example: evensow log ${EXAMPLES[meant]}`;
  return ['Examples:', ...Object.values(EXAMPLES).map((typed) => `  evensow log ${typed}`)].join('\n');
}

/**
 * @param batch with the row; null for `clean` and `tank`
 * @param stages names of the line's stages in their order
 */
export function loggedText(
  row: LogRow | TankRow,
  batch: BatchStanding | null,
  stages: readonly string[],
): string {
  const done = `${dateText(row.date)}: ${row.action === 'tank' ? tankText(row) : deedText(row)}.`;
  if (batch === null) return done;
  const places = stages
    .map((name, s) => ({ name, plants: batch.standing[s]! }))
    .filter(({ plants }) => plants > 0);
  const standing =
    places.length === 0
      ? 'nothing stands any more'
      : places.map(({ name, plants }) => `${thousands(plants)} ${placeText(name)}`).join(', ');
  const gone = [
    ...(batch.picked > 0 ? [`${thousands(batch.picked)} picked`] : []),
    ...(batch.lost > 0 ? [`${thousands(batch.lost)} lost`] : []),
  ];
  const all = batch.stood > 0 ? `${thousands(batch.stood)} that stood` : `${thousands(batch.seeds)} sown`;
  const sown = gone.length === 0 ? '' : `; ${gone.join(', ')}, of ${all}`;
  return `${done} ${batch.name} (${batch.crop}) now: ${standing}${sown}.`;
}

function placeText(stage: string): string {
  return stage === UNNAMED_STAGE ? 'where they were sown' : `in ${stage}`;
}

function deedText({ action, count, crop, batch, stage, channel, grams, note }: LogRow): string {
  const many = thousands(count);
  const at = channel === null ? '' : `, ${channel}`;
  switch (action) {
    case 'sow':
      return `${many} ${crop} sown as ${batch}`;
    case 'move':
      return `${many} of ${batch} moved into ${stage}${at}`;
    case 'pick':
      return `${many} of ${batch} picked${grams === null ? '' : `, ${grams} g`}`;
    case 'lose':
      return `${many} of ${batch} lost in ${stage}${at}`;
    case 'stand':
      return `${many} of ${batch} stand in ${stage}${at}${sinceText(sinceOf(note))}`;
    case 'clean':
      return `${counted(count, 'hole')} of ${channel ?? stage} out of use${channel === null ? '' : ` (${stage})`}`;
  }
}

function tankText({ litres, ec, changed }: TankRow): string {
  const water = litres === null ? '' : ` with ${litres} l`;
  if (changed) return `tank emptied and filled anew${water}${ec === null ? '' : `, ${ec} mS/cm before`}`;
  if (litres === null) return `tank at ${ec} mS/cm`;
  return `tank topped up${water}${ec === null ? '' : `, ${ec} mS/cm before`}`;
}

function sinceText(since: Since | null): string {
  if (since === null) return ', since when is not known';
  const { from, to } = since;
  return from === to ? ` since ${dateText(from)}` : `, came in from ${dateText(from)} to ${dateText(to)}`;
}
