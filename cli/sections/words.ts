/** What `evensow help WORD` says: the word explained, or the names of all words. */

import { type Chapter, figureCalled, keysCalled } from '../words/glossary/glossary.js';
import type { Word } from '../words/glossary/word.js';
import type { Section } from './section.js';

/** The word, what it means, and where in the files it stands. */
export function wordSections(word: Word): Section[] {
  const figure = figureCalled(word);
  const keys = keysCalled(word);
  return [
    {
      kind: 'section',
      title: word.name,
      blocks: [
        word.text,
        ...(figure === null ? [] : [`In --json: ${figure}.`]),
        ...(keys.length === 0 ? [] : [`In a scenario: ${keys.join(', ')}.`]),
      ],
    },
  ];
}

/** All words by chapter. */
export function wordListSections(chapters: readonly Chapter[]): Section[] {
  return [
    ...chapters.map(
      ({ title, words }): Section => ({
        kind: 'section',
        title,
        blocks: [words.map(({ name }) => name).join(', ')],
      }),
    ),
    {
      kind: 'section',
      title: null,
      blocks: ['evensow help WORD explains one, such as: evensow help bad week'],
    },
  ];
}
