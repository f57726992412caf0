/** Which size: the one with most heads and those as good, and where more room stops to pay. */

import type { SizeResult } from '../../sim/study/size/size.js';
import { decimalsFor } from '../words/numbers.js';
import { WIDTH, wrap } from './format.js';
import { headsText, KNEE, sizeNamed } from './size-words.js';

/** More equals than these are counted, not named. */
const NAMED = 3;

export function sizeChoice(result: SizeResult): string {
  const { best, frontier } = result;
  const sentences: string[] = [];
  if (best !== null) {
    const { mean, low, high } = sizeNamed(result, best.size).figures['heads_a_week']!;
    const interval =
      low === null || high === null ? '' : ` (95 % interval ${headsText(low)} to ${headsText(high)})`;
    sentences.push(`Most heads: ${best.size}, ${headsText(mean)} a week${interval}.${asGood(result)}`);
  }
  if (frontier !== null) sentences.push(bend(result, frontier));
  return ['Which size', ...sentences.map((sentence) => wrap(sentence, WIDTH, '  '))].join('\n');
}

function asGood(result: SizeResult): string {
  const { size, not_told_apart: equal } = result.best!;
  if (result.sizes.filter(({ asked }) => asked).length === 1) return '';
  if (equal.length === 0) return ' No other can be taken for as good.';
  if (equal.length <= NAMED) return ` Not to be told from it: ${equal.join('; ')}.`;
  const cost = result.frontier?.cost;
  const counted = ` ${equal.length} others cannot be told from it`;
  if (cost === undefined) return `${counted}.`;
  const least = equal
    .map((name) => sizeNamed(result, name))
    .reduce((small, one) => (one[cost]! < small[cost]! ? one : small));
  return least[cost]! < sizeNamed(result, size)[cost]!
    ? `${counted}; the smallest of them: ${least.name}.`
    : `${counted}; none of them is smaller.`;
}

function bend(result: SizeResult, { cost, sizes }: NonNullable<SizeResult['frontier']>): string {
  if (result.knee === null) {
    return sizes.length === 1
      ? 'More room than the smallest size has brings no more heads.'
      : 'No size stands out: with more room heads rise about evenly, or hardly at all.';
  }
  const [low, knee, best] = [sizes[0]!, result.knee.size, sizes.at(-1)!].map((name) => {
    const size = sizeNamed(result, name);
    return { room: size[cost]!, heads: size.figures['heads_a_week']!.mean };
  });
  const largest = Math.max(...result.sizes.filter(({ asked }) => asked).map((size) => size[cost]!));
  const before = (knee!.heads - low!.heads) / (knee!.room - low!.room);
  const after = (best!.heads - knee!.heads) / (largest - knee!.room);
  const decimals = decimalsFor(Math.max(before, after));
  return `The knee (${KNEE}): ${result.knee.size}. From the smallest size up to there each ${cost === 'holes' ? 'hole' : 'm2'} brings ${before.toFixed(decimals)} heads a week more, from there to the largest ${after.toFixed(decimals)}.`;
}
