/** Options that are lists of single stages: `--channels nursery=1..4`, `--hours finishing=14,16`. */

import { CHANNELS } from '../../sim/models/limits.js';
import { LIT, type LightKey } from '../../sim/scenario/light.js';
import { numberList, wholeList } from './lists.js';

/** The stage in front of the last =, for the name of a stage may hold one; null where there is none. */
function inFront(text: string): readonly [stage: string | null, list: string] {
  const at = text.lastIndexOf('=');
  return at < 0 ? [null, text] : [text.slice(0, at).trim(), text.slice(at + 1)];
}

/**
 * Channels that stages may have: `nursery=1..4`, once for each stage.
 * @param texts one for each time the option was given
 */
export function channelLists(
  texts: readonly string[] | undefined,
  faults: string[],
): { stage: string; counts: number[] }[] {
  const lists: { stage: string; counts: number[] }[] = [];
  for (const text of texts ?? []) {
    const [stage, counts] = inFront(text);
    if (stage === null || stage === '') {
      faults.push(
        `--channels must not be ${JSON.stringify(text)}. It must be the name of a stage, = and its counts of channels. Example: --channels nursery=1..4 --channels finishing=6,8,10`,
      );
    } else if (lists.some((list) => list.stage === stage)) {
      faults.push(
        `--channels must not name ${stage} twice. All counts of a stage stand in one list. Example: --channels ${stage}=2,4,6`,
      );
    } else {
      const example = `${stage}=4,6,8 or ${stage}=1..4`;
      lists.push({ stage, counts: wholeList('--channels', counts, CHANNELS, example, faults) });
    }
  }
  return lists;
}

/** Light of a stage that is tried, or of all lit stages (null). */
export interface LightList {
  readonly stage: string | null;
  readonly values: readonly number[];
}

const OF_LIGHT = {
  ppfd: { unit: 'umol m-2 s-1', values: '200,260' },
  hours: { unit: 'hours a day', values: '14,16,18' },
} as const;

/**
 * Light that is tried: `finishing=200,260`, once for each stage; or `200,260`, once, for all lit stages.
 * @param texts one for each time the option was given
 */
export function lightLists(
  key: LightKey,
  texts: readonly string[] | undefined,
  faults: string[],
): LightList[] {
  const option = `--${key}`;
  const { unit, values } = OF_LIGHT[key];
  const lists: LightList[] = [];
  for (const text of texts ?? []) {
    const [stage, list] = inFront(text);
    if (stage === '') {
      faults.push(
        `${option} must not be ${JSON.stringify(text)}: the name of the stage is missing in front of =. Example: ${option} finishing=${values}`,
      );
    } else if (lists.some((one) => one.stage === stage)) {
      const twice = stage === null ? 'be given twice for all lit stages' : `name ${stage} twice`;
      const example = stage === null ? values : `${stage}=${values}`;
      faults.push(
        `${option} must not ${twice}. All values of a stage stand in one list. Example: ${option} ${example}`,
      );
    } else {
      const example = stage === null ? values : `${stage}=${values}`;
      lists.push({ stage, values: numberList(option, list, LIT[key], { unit, example }, faults) });
    }
  }
  if (lists.length > 1 && lists.some(({ stage }) => stage === null)) {
    faults.push(
      `${option} must not be given for all lit stages and for single ones. Name each stage. Example: ${option} nursery=${values} ${option} finishing=${values}`,
    );
  }
  return lists;
}
