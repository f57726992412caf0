/**
 * One sign of any kind, for texts of fast-check. Its own (`unit: 'binary'`) are the same signs, but it makes a table of all of them first:
 * a second of processor time in each process.
 */

import fc from 'fast-check';

/** Halves of pairs, which are no signs, lie in between. */
const [HALVES, HOW_MANY] = [0xd800, 0x800];

export const anySign = fc.integer({ min: 0, max: 0x10ffff - HOW_MANY }).map(
  (n) => String.fromCodePoint(n < HALVES ? n : n + HOW_MANY),
  // Also the way back, without which fast-check would not put in names that objects have of themselves, and could not make a case smaller.
  (sign) => {
    if (typeof sign !== 'string' || [...sign].length !== 1) throw new Error('not one sign');
    const code = sign.codePointAt(0)!;
    return code < HALVES ? code : code - HOW_MANY;
  },
);
