/** What is taken to be so though no row of the log says it, and what to type if it is otherwise. */

import type { Assumed } from '../../sim/season/ahead/assumed.js';
import { assumedSentences, loseCommands, type Telling } from '../words/assumed.js';
import { counted } from '../words/numbers.js';
import { type Block, code } from './section.js';

export function assumedBlocks(assumed: Assumed, telling: Telling): Block[] {
  const { lines, more } = loseCommands(assumed.overdue, telling);
  return [
    ...assumedSentences(assumed),
    ...(lines.length === 0 ? [] : [code(...lines.map((line) => `  ${line}`))]),
    ...(more === 0 ? [] : [`  ... and ${counted(more, 'more command', 'more commands')}: --all`]),
  ];
}
