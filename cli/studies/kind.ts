/** What the program must know of a kind of study: how to set it up and how to show it. */

import type { Study } from '../../sim/study/study.js';

export interface Kind<Asked, Yield, Result> {
  /** @throws Problem if a scenario is wrong or the options do not fit it */
  study(asked: Asked): Study<Yield, Result>;
  text(result: Result, asked: Asked): string;
  csv(result: Result): string;
}
