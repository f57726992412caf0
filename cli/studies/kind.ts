/** What the program must know of a kind of study: how to set it up and what its result says. */

import type { Study } from '../../sim/study/study.js';
import type { Rows, Section } from '../sections/section.js';

export interface Kind<Asked, Yield, Result> {
  /** @throws Problem if a scenario is wrong or the options do not fit it */
  study(asked: Asked): Study<Yield, Result>;
  sections(result: Result, asked: Asked): Section[];
  rows(result: Result): Rows;
}
