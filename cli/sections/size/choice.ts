/** Which size: the one with most heads and those as good, and where more room stops to pay. */

import type { SizeResult } from '../../../sim/study/size/size.js';
import { counted, decimalsFor, figureText, intervalText } from '../../words/numbers.js';
import { type Section, section } from '../section.js';
import { headsForm, KNEE, sizeNamed } from './signs.js';

/** More equals than these are counted, not named. */
const NAMED = 3;

export function choice(result: SizeResult): Section {
  const { best, frontier } = result;
  const sentences: string[] = [];
  if (best !== null) {
    const { mean, low, high } = sizeNamed(result, best.size).figures.heads_a_week!;
    const form = headsForm(result);
    const interval =
      low === null || high === null ? '' : ` (95 % interval ${intervalText({ low, high }, form)})`;
    sentences.push(`Most heads: ${best.size}, ${figureText(mean, form)} a week${interval}.${asGood(result)}`);
  }
  if (frontier !== null) sentences.push(bend(result, frontier));
  return section('Which size', ...sentences);
}

function asGood(result: SizeResult): string {
  const { size, not_told_apart: equal } = result.best!;
  if (result.sizes.filter(({ asked }) => asked).length === 1) return '';
  if (equal.length === 0) return ' No other can be taken for as good.';
  if (equal.length <= NAMED) return ` Not to be told from it: ${equal.join('; ')}.`;
  const cost = result.frontier?.cost;
  const others = ` ${counted(equal.length, 'other')} cannot be told from it`;
  if (cost === undefined) return `${others}.`;
  const least = equal
    .map((name) => sizeNamed(result, name))
    .reduce((small, one) => (one[cost]! < small[cost]! ? one : small));
  return least[cost]! < sizeNamed(result, size)[cost]!
    ? `${others}; the smallest of them: ${least.name}.`
    : `${others}; none of them is smaller.`;
}

function bend({ knee }: SizeResult, { cost, sizes }: NonNullable<SizeResult['frontier']>): string {
  if (knee === null) {
    return sizes.length === 1
      ? 'More room than the smallest size has brings no more heads.'
      : 'There is no knee among these sizes: where each 1 % more room begins to bring less than 0.5 % more heads lies below the smallest or beyond the largest.';
  }
  const { size, up_to, beyond } = knee;
  const decimals = decimalsFor(up_to);
  return `The knee (${KNEE}): ${size}. Up to there each ${cost === 'holes' ? 'hole' : 'm2'} brings ${up_to.toFixed(decimals)} heads a week; beyond it one more brings ${beyond === 0 ? 'nothing' : `${beyond.toFixed(decimals)} at most`}, not half as much.`;
}
