/** `size`: one line with other numbers of channels. */

import type { Plan } from '../models/plan.js';
import { type Result, success } from '../models/result.js';
import { type SizeLayout, sizesOf } from '../study/size/layout.js';
import { type SizeResult, sizeStudy } from '../study/size/size.js';
import { carriedOut, type StudyOptions, seasonsAndSeed } from './carry-out.js';

/** What a study of sizes can be told beside how it is carried out. */
export interface SizeOptions extends StudyOptions {
  /** Which sizes are tried. Left out: about five counts of channels around the present ones, in the last two stages. */
  readonly layout?: SizeLayout;
}

/**
 * One line with other numbers of channels, with the same luck: the best size, the knee, what more channels are worth.
 *
 * @returns faults, a sentence each, if the layout does not fit the line
 * @throws RangeError if an option is out of range; the signal's reason if it was stopped before the first season was over
 * @example
 * ```ts
 * const sized = await size(plan, { layout: { kind: 'split', channels: 10, between: [] } });
 * if (sized.ok) console.log(sized.value.best?.size);
 * ```
 */
export async function size(plan: Plan, options: SizeOptions = {}): Promise<Result<SizeResult, string>> {
  const { layout = { kind: 'around' } } = options;
  const sizes = sizesOf(plan, layout);
  if (!sizes.ok) return sizes;
  const { seasons, seed } = seasonsAndSeed([plan], options);
  return success(await carriedOut(sizeStudy(plan, sizes.value, layout.kind, seed, seasons), options));
}
