/** `evensow help WORD`: a word of the trade or of a result in two sentences. */

import { EXIT_DONE, print } from '../io/streams.js';
import { Problem } from '../problem.js';
import { textOf } from '../render/text.js';
import { wordListSections, wordSections } from '../sections/words.js';
import { ALL_WORDS, chapters, nearWords, wordCalled } from '../words/glossary/glossary.js';

/** The explanation of a word, to stand below something else; empty if it is none. */
export function explanation(text: string): string {
  const word = wordCalled(text);
  return word === null ? '' : textOf(wordSections(word));
}

/**
 * @param typed the word as it was typed, which may be several
 * @param commands names of commands, which may be meant too
 * @throws Problem if it is no word; it names the nearest
 */
export async function helpOnWord(typed: readonly string[], commands: readonly string[]): Promise<number> {
  const text = typed.join(' ');
  const word = wordCalled(text);
  if (word === null && text.toLowerCase() !== ALL_WORDS) throw unknown(text, commands);
  await print(textOf(word === null ? wordListSections(chapters()) : wordSections(word)));
  return EXIT_DONE;
}

function unknown(text: string, commands: readonly string[]): Problem {
  const near = nearWords(text, commands);
  const advice =
    near.length === 0 ? `The commands are ${commands.join(', ')}.` : `Did you mean ${near.join(' or ')}?`;
  return new Problem(
    `${text} is no command and no word that is explained. ${advice} All words: evensow help ${ALL_WORDS}. See: evensow --help`,
  );
}
