/** Which size: the one with most heads and those as good, and where more room stops to pay. */

import type { SizeResult } from '../../../sim/study/size/size.js';
import { counted, decimalsFor, figureText, intervalText } from '../../words/numbers.js';
import { type Section, section } from '../section.js';
import { headsForm, headsOf, KNEE, sizeNamed } from './signs.js';

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

function bend(result: SizeResult, { cost, sizes }: NonNullable<SizeResult['frontier']>): string {
  if (result.knee === null) {
    return sizes.length === 1
      ? 'More room than the smallest size has brings no more heads.'
      : 'No size stands out: with more room heads rise about evenly, or hardly at all.';
  }
  const [low, knee, best] = [sizes[0]!, result.knee.size, sizes.at(-1)!].map((name) => {
    const size = sizeNamed(result, name);
    return { room: size[cost]!, heads: headsOf(size) };
  });
  const largest = Math.max(...result.sizes.filter(({ asked }) => asked).map((size) => size[cost]!));
  const before = (knee!.heads - low!.heads) / (knee!.room - low!.room);
  const after = (best!.heads - knee!.heads) / (largest - knee!.room);
  const decimals = decimalsFor(Math.max(before, after));
  return `The knee (${KNEE}): ${result.knee.size}. From the smallest size up to there each ${cost === 'holes' ? 'hole' : 'm2'} brings ${before.toFixed(decimals)} heads a week more, from there to the largest ${after.toFixed(decimals)}.`;
}
