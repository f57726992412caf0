/** `size`: the nursery against the finishing channels. */

import type { Gathered } from '../../sim/seasons/gathered.js';
import { sizesOf } from '../../sim/study/size/layout.js';
import { type SizeResult, sizeStudy } from '../../sim/study/size/size.js';
import { readSource } from '../inputs/scenario-file.js';
import { Problem } from '../problem.js';
import { sizeRows } from '../sections/size/rows.js';
import { sizeSections } from '../sections/size/size.js';
import type { SizeAssignment } from './assignment.js';
import type { Kind } from './kind.js';

export const size: Kind<SizeAssignment, Gathered, SizeResult> = {
  study: ({ sources, layout, seed, seasons }) => {
    const { plan } = readSource(sources[0]!);
    const sizes = sizesOf(plan, layout);
    if (Array.isArray(sizes)) throw new Problem(sizes.join('\n'));
    return sizeStudy(plan, sizes, layout.kind, seed, seasons);
  },
  sections: sizeSections,
  rows: sizeRows,
};
