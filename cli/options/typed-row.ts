/** A row of the log as typed behind `evensow log`: which argument and option is which field. */

import type { Typed } from '../../sim/season/log/append.js';
import { actionMeant } from '../../sim/season/log/fields.js';
import { CHANGED } from '../../sim/season/log/tank.js';
import { today } from '../io/streams.js';
import { Problem } from '../problem.js';
import type { Options } from './options.js';

/**
 * @param action in small letters; it need not be one
 * @param what the crop of a sowing, the stage of a cleaning, else the batch
 * @param stage moved into, or lost in
 * @throws Problem if something stands there that means nothing with this action
 */
export function typedRow(
  action: string,
  count: string,
  what: string,
  stage: string,
  options: Options,
): Typed {
  const { batch, date = today(), channel = '', grams = '', note = '', crop, since } = options;
  const nothing = { crop: '', batch: '', stage: '', channel: '', count: '', grams: '', litres: '', ec: '' };
  checkOptions(action, [count, what, stage], options);
  if (action === 'tank') return { ...nothing, action, date, ...tankFields(options) };
  const row = { ...nothing, action, count, date, channel, grams, note, stage };
  switch (action) {
    case 'stand':
      return {
        ...row,
        crop: crop ?? '',
        batch: what,
        note: noteOf(since === undefined ? '' : `since ${since.trim()}`, note),
      };
    case 'sow':
      return { ...row, crop: what, batch: batch ?? '' };
    case 'clean':
      return { ...row, stage: what };
    default:
      return { ...row, batch: what };
  }
}

/** @throws Problem if something stands there that means nothing with this action */
function checkOptions(action: string, [count, what, stage]: readonly string[], options: Options): void {
  if (action === 'clean' && stage !== '') {
    throw new Problem(
      `log clean must not have ${JSON.stringify(stage)} behind the stage. It takes a count and a stage. Example: evensow log clean 9 finishing --channel F3`,
    );
  }
  const behind = [count, what, stage].filter((word) => word !== '');
  if (action === 'tank' && behind.length > 0) {
    throw new Problem(
      `log tank must not have ${JSON.stringify(behind.join(' '))} behind it. It takes options only. Example: ${TANK}`,
    );
  }
  for (const { names, actions, what, example } of OPTIONS_OF) {
    if (actions.includes(actionMeant(action) ?? action)) continue;
    const stray = names.find((name) => options[name] !== undefined);
    if (stray !== undefined) {
      throw new Problem(`--${stray} must not stand with log ${action}. It ${what}. Example: ${example}`);
    }
  }
}

const STAND = 'evensow log stand 12 B3 nursery --crop butterhead --since 2027-02-01..2027-02-10';
const TANK = 'evensow log tank --litres 12.5 --ec 1.6';

/** Options that go with some actions only. */
const OPTIONS_OF = [
  {
    names: ['batch'],
    actions: ['sow'],
    what: 'names the batch of a sowing',
    example: 'evensow log sow 6 butterhead --batch B7',
  },
  {
    names: ['crop', 'since'],
    actions: ['stand'],
    what: 'tells of plants that stood before the log began',
    example: STAND,
  },
  { names: ['litres', 'ec', 'changed'], actions: ['tank'], what: 'tells of the tank', example: TANK },
];

/** What a row of the tank tells, from its options. */
function tankFields({ litres = '', ec = '', changed, channel = '', grams = '', note = '' }: Options) {
  return { litres, ec, channel, grams, note: noteOf(changed ? CHANGED : '', note) };
}

/** A note that begins with what the program reads in it. */
function noteOf(read: string, note: string): string {
  return [read, note].filter((part) => part !== '').join('; ');
}
