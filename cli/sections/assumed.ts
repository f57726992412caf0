/** What is taken to be so though no row of the log says it, and what to type if it is otherwise. */

import type { Assumed } from '../../sim/season/ahead/assumed.js';
import { assumedSentences, loseCommands, type Telling } from '../words/assumed.js';
import { counted } from '../words/numbers.js';
import { type Block, command, section } from './section.js';

export function assumedBlocks(assumed: Assumed, telling: Telling): Block[] {
  const sentences = assumedSentences(assumed);
  const { lines, more } = loseCommands(assumed, telling);
  if (lines.length === 0) return sentences;
  // The last sentence is that of these plants.
  return [
    ...sentences.slice(0, -1),
    section(
      sentences.at(-1)!,
      ...lines.map(command),
      ...(more === 0 ? [] : [`... and ${counted(more, 'more command')}: --all`]),
    ),
  ];
}
