/**
 * The one table of words that `evensow help WORD` explains, and looking up in it. What has its meaning written elsewhere is taken from
 * there: states (words/states.ts), figures (study/figures), keys of the scenario (the schema).
 */

import { COUNTS, STATES } from '../../../sim/models/ledger.js';
import { nearest } from '../../../sim/models/nearest.js';
import { scenarioKeyTable } from '../../../sim/scenario/schema.js';
import { FIGURES } from '../../../sim/study/figures/figures.js';
import { STATE_WORDS } from '../states.js';
import { CAUSES, DOUBTS, LOGGED, REAL_SEASON } from './real-season.js';
import { COUNTED, RESULTS } from './results.js';
import { TRADE } from './trade.js';
import type { Word } from './word.js';

/** What lists all words: `evensow help words`. */
export const ALL_WORDS = 'words';

/** Words of one kind. */
export interface Chapter {
  readonly title: string;
  readonly words: readonly Word[];
}

/** Every word once: of words of several kinds the first kind explains it. */
export function chapters(): Chapter[] {
  const taken = new Set<string>();
  const keys = keyWords().filter(({ name }) => !TRADE.some(({ also = [] }) => also.includes(name)));
  return [
    { title: 'Words of the trade', words: TRADE },
    { title: 'Where a hole-day goes', words: STATES.map(stateWord) },
    { title: 'Figures', words: FIGURES.map(figureWord) },
    { title: 'Words of the results', words: [...RESULTS, ...own(COUNTED)] },
    { title: 'What is logged', words: [...Object.values(LOGGED), ...REAL_SEASON] },
    { title: 'Why holes stood empty, and what cost heads', words: own(CAUSES) },
    { title: 'Why a fitted figure is not sure', words: own(DOUBTS) },
    { title: 'Other keys of the scenario', words: keys },
  ].map(({ title, words }) => ({
    title,
    words: words.filter(({ name }) => !taken.has(plain(name)) && taken.add(plain(name))),
  }));
}

function own(words: Readonly<Record<string, string | Word>>): Word[] {
  return Object.values(words).filter((word) => typeof word !== 'string');
}

function stateWord(state: (typeof STATES)[number]): Word {
  const { text, short, holds, callsFor } = STATE_WORDS[state];
  return {
    name: state,
    also: [text, short],
    text: `The state of a hole that holds ${holds}. What much of it calls for: ${callsFor}.`,
  };
}

function figureWord({ name, label, short, column, means }: (typeof FIGURES)[number]): Word {
  return { name: plain(name), also: [label, short, column], text: means };
}

/** A key that stands in several places is one word, explained where it stands first. */
function keyWords(): Word[] {
  return scenarioKeys().map(({ key, meaning }) => ({ name: lastOf(key), text: meaning }));
}

/** Those that have a name: the key of what a crop does in a stage is the stage's. */
function scenarioKeys(): ReturnType<typeof scenarioKeyTable> {
  return scenarioKeyTable().filter(({ key }) => !key.endsWith('>'));
}

function lastOf(key: string): string {
  return key.split('.').at(-1)!.replace('[]', '');
}

/** Keys of the scenario that are called so, with their places: `crops[].cuts`. */
export function keysCalled({ name, also = [] }: Word): string[] {
  const called = [name, ...also].map(plain);
  return scenarioKeys().flatMap(({ key }) => (called.includes(plain(lastOf(key))) ? [key] : []));
}

/** What a state, a count or a figure of this name is called in `--json`; null if it is none of them. */
export function figureCalled({ name }: Word): string | null {
  const names = [...FIGURES.map((figure) => figure.name), ...STATES, ...COUNTS];
  return names.find((one) => plain(one) === plain(name)) ?? null;
}

/** Without what differs between a page, a file and what is typed: case, signs, underscores. */
export function plain(text: string): string {
  return text
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}%.]+/gu, ' ')
    .trim();
}

/** @returns null if it is none of the words; a plural is taken for its singular */
export function wordCalled(text: string): Word | null {
  const sought = plain(text);
  const all = chapters().flatMap(({ words }) => words);
  for (const one of sought.endsWith('s') ? [sought, sought.slice(0, -1)] : [sought]) {
    // Its own name before what another is called too.
    const found =
      all.find(({ name }) => plain(name) === one) ??
      all.find(({ also = [] }) => also.some((name) => plain(name) === one));
    if (found !== undefined) return found;
  }
  return null;
}

/** Most words that are offered. */
const MOST_OFFERED = 3;

/** The words that somebody may have meant, the nearest first. @param besides other words that may be meant */
export function nearWords(text: string, besides: readonly string[] = []): string[] {
  const left = [
    ...besides,
    ...chapters().flatMap(({ words }) => words.flatMap(({ name, also = [] }) => [name, ...also])),
  ];
  const near: string[] = [];
  while (near.length < MOST_OFFERED) {
    const one = nearest(plain(text), left);
    if (one === null) break;
    near.push(one);
    for (let at = left.indexOf(one); at >= 0; at = left.indexOf(one)) left.splice(at, 1);
  }
  return near;
}
