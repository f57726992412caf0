/** `evensow help WORD`: every word that a result or a file uses is explained, in two sentences, with the right numbers. */

import { readFileSync, writeFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { chapters, keysCalled, plain, wordCalled } from '../../cli/words/glossary/glossary.js';
import { CAUSES, DOUBTS } from '../../cli/words/glossary/real-season.js';
import { COUNTED, TOLD_BY } from '../../cli/words/glossary/results.js';
import { STATE_WORDS } from '../../cli/words/states.js';
import { COUNTS, STATES } from '../../sim/models/ledger.js';
import { scenarioKeyTable } from '../../sim/scenario/schema.js';
import { ACTIONS } from '../../sim/season/log/rows.js';
import { FIGURES } from '../../sim/study/figures/figures.js';
import { evensow } from './program.js';

const ALL = chapters().flatMap(({ words }) => words);
const pageOf = (page: string): string => readFileSync(new URL(`../../docs/${page}`, import.meta.url), 'utf8');
const sourceOf = (file: string): string => readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8');

/** Sentences of a text: a point within a number ends none. */
function sentencesOf(text: string): string[] {
  return text.split(/(?<=[.!?])\s+/).filter((sentence) => sentence !== '');
}

/** The word that explains an entry of a table. */
const named = (entry: string | { name: string }): string => (typeof entry === 'string' ? entry : entry.name);

test('every state has its word, under its name and as a result tells it', () => {
  for (const state of STATES) {
    const { text, short, holds } = STATE_WORDS[state];
    for (const way of [state, text, short]) expect(wordCalled(way)?.text, way).toContain(holds);
  }
});

test('every figure has its word, under its name and its label', () => {
  for (const { name, label, means } of FIGURES) {
    expect(wordCalled(name)?.text, name).toBe(means);
    expect(wordCalled(label)?.text, label).toBe(means);
  }
});

test('every count and every log action has its word', () => {
  for (const count of COUNTS) expect(wordCalled(named(COUNTED[count])), count).not.toBeNull();
  for (const count of COUNTS.filter((one) => one !== 'discarded'))
    expect(wordCalled(count)?.name).toBe(plain(count));
  for (const action of ACTIONS) expect(wordCalled(action)?.name, action).toBe(action);
});

test('every cause and every doubt has its word', () => {
  // As the types say it: a cause that is added there is missed here.
  const kindsIn = (file: string, key: string): string[] =>
    [...sourceOf(file).matchAll(new RegExp(`readonly ${key}: ('[a-z_]+'(?: \\| '[a-z_]+')*)`, 'g'))].flatMap(
      ([, kinds]) => kinds!.split(' | ').map((kind) => kind.slice(1, -1)),
    );
  const causes = ['causes', 'season-causes'].flatMap((file) =>
    kindsIn(`sim/season/replay/${file}.ts`, 'kind'),
  );
  const doubts = ['fit', 'meter/metered'].flatMap((file) => kindsIn(`sim/season/fit/${file}.ts`, 'why'));
  expect(new Set(causes)).toEqual(new Set(Object.keys(CAUSES)));
  expect(new Set(doubts)).toEqual(new Set(Object.keys(DOUBTS)));
  for (const entry of [...Object.values(CAUSES), ...Object.values(DOUBTS)]) {
    expect(wordCalled(named(entry))?.name, named(entry)).toBe(named(entry));
  }
});

test('what holds a line back, verdicts and what search spends least of have their words', () => {
  for (const word of Object.values(TOLD_BY)) expect(wordCalled(word), word).not.toBeNull();
});

test.each([
  ['cost', 'money'],
  ['what it takes', 'what it takes'],
  ['minutes', 'minutes'],
  ['full visit', 'minutes'],
  ['empty holes', 'cost of an empty hole'],
  ['spell', 'air by date'],
  ['DLI', 'light of a day'],
])('what a plan takes has its words: %s', (asked, word) => {
  expect(wordCalled(asked)?.name).toBe(word);
});

test('a price of a hole-day is explained where the hole-day is', () => {
  expect(wordCalled('hole_day')?.text).toMatch(/As a price it is the wear and interest of one hole/);
});

test('every key of the scenario has its word, which names its place', () => {
  for (const { key } of scenarioKeyTable()) {
    const last = key.split('.').at(-1)!.replace('[]', '');
    if (last.startsWith('<')) continue;
    const word = wordCalled(last);
    expect(word, key).not.toBeNull();
    if (plain(word!.name) === plain(last)) expect(keysCalled(word!)).toContain(key);
  }
});

test.each(ALL.map(({ name, text }) => [name, text] as const))(
  '%s is explained in one or two sentences',
  (_, text) => {
    const sentences = sentencesOf(text);
    expect(sentences.length).toBeGreaterThan(0);
    expect(sentences.length).toBeLessThanOrEqual(2);
    expect(text).toMatch(/^[A-Z0-9].*\.$|^[A-Z0-9].*\]\.$/);
  },
);

test('no word is explained twice, and each is found under its own name', () => {
  const names = ALL.map(({ name }) => plain(name));
  expect(new Set(names).size).toBe(names.length);
  for (const word of ALL) expect(wordCalled(word.name)?.text).toBe(word.text);
});

test('what is told of each word fits 80 columns, and begins with the word', async () => {
  const commands = (await evensow(['--help'])).out;
  for (const { name } of ALL) {
    const { code, out, err } = await evensow(['help', ...name.split(' ')]);
    expect({ name, code, err }).toEqual({ name, code: 0, err: '' });
    expect(out.split('\n').filter((line) => line.length > 80)).toEqual([]);
    const isCommand = new RegExp(`^  ${name} `, 'm').test(commands);
    expect(out.startsWith(isCommand ? 'Usage: ' : `${name}\n`), name).toBe(true);
    if (isCommand) expect(out).toContain(`\n\n${name}\n`);
  }
});

test('numbers agree with the tables that they come from', () => {
  for (const { name, quantile, means } of FIGURES) {
    if (quantile === undefined) continue;
    const share = quantile === 0.5 ? 'Half of the weeks' : `1 week in ${1 / quantile} `;
    expect(means.startsWith(share), name).toBe(true);
  }
  const [, low, high] = /mean; ([\d.]+) to ([\d.]+) is common practice/.exec(pageOf('keys.md'))!;
  expect(wordCalled('spread')!.text).toContain(`${low} to ${high}`);
  const [, pays] = /^const PAYS = ([\d.]+);/m.exec(sourceOf('sim/study/size/knee.ts'))!;
  expect(wordCalled('knee')!.text).toContain(`each 1 % more room brings less than ${pays} % more heads`);
});

test('the docs say of states, figures and words of the trade what help says', () => {
  const answer = pageOf('reading-the-answer.md');
  for (const state of STATES) {
    const { text, holds, callsFor } = STATE_WORDS[state];
    expect(answer).toContain(`| ${text} | \`${state}\` | ${holds} | ${callsFor} |`);
  }
  for (const { name, means, scope } of FIGURES) {
    if (scope === 'whole') expect(answer).toContain(`\`${name}\` | ${means} |`);
  }
  const rules = pageOf('how-the-line-behaves.md');
  const table = rules.slice(rules.indexOf('## Words'), rules.indexOf('## Time'));
  const rows = [...table.matchAll(/^\| ([a-z][a-z, ]*) \| (.+) \|$/gm)].slice(1);
  expect(rows.length).toBeGreaterThan(6);
  for (const [, names, means] of rows) {
    for (const name of names!.split(', ')) {
      expect(sentencesOf(wordCalled(name)!.text)[0]!.toLowerCase(), name).toBe(`${means!.toLowerCase()}.`);
    }
  }
});

test('a command has its help, and its meaning below if it is a word too', async () => {
  const own = await evensow(['log', '--help']);
  const { out } = await evensow(['help', 'log']);
  expect(out).toBe(`${own.out}\nlog\n  ${wordCalled('log')!.text}\n  In a scenario: log.\n`);
  expect((await evensow(['help', 'help'])).out).toBe((await evensow(['--help'])).out);
  expect((await evensow(['help', 'compare'])).out).toBe((await evensow(['compare', '--help'])).out);
});

test.each([
  [['Bad', 'WEEK'], 'bad week'],
  [['bad_week'], 'bad week'],
  [['"bad week"'], 'bad week'],
  [['heads', 'in', 'a', 'bad', 'week'], 'bad week'],
  [['ready,', 'no', 'hole', 'free', 'further', 'on'], 'blocked'],
  [['bottleneck'], 'held back by'],
  [['away'], 'absence'],
  [['hole-days'], 'hole-day'],
  [['unused_holes'], 'unused holes'],
])('%j is found', async (typed, name) => {
  expect((await evensow(['help', ...typed])).out.split('\n')[0]).toBe(name);
});

test.each([
  [['bad', 'wek'], 'Did you mean bad week'],
  [['blokced'], 'Did you mean blocked?'],
  [['comprae'], 'Did you mean compare?'],
  [['unsuplied'], 'Did you mean unsupplied?'],
])('of %j the nearest is offered', async (typed, offered) => {
  const { code, out, err } = await evensow(['help', ...typed]);
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err).toContain(
    `evensow: ${typed.join(' ')} is no command and no word that is explained. ${offered}`,
  );
  expect(err).toContain('All words: evensow help words.');
});

test('help says how to list the words, and lists them', async () => {
  expect((await evensow(['help'])).out.trimEnd().split('\n').slice(-2).join(' ')).toContain(
    'evensow help words',
  );
  const { out } = await evensow(['help', 'words']);
  const listed = out.replaceAll(/\n {2}/g, ' ');
  for (const { name } of ALL) expect(listed).toContain(name);
});

test('docs/words.md is made from the table', () => {
  const rows = chapters().map(
    ({ title, words }) =>
      `## ${title}\n\n| word | means |\n| --- | --- |\n${words.map(({ name, text }) => `| ${name} | ${text} |\n`).join('')}`,
  );
  const page = pageOf('words.md');
  const [head] = page.split('## ');
  const written = `${head}${rows.join('\n')}`;
  if (process.env['UPDATE_DOCS']) writeFileSync(new URL('../../docs/words.md', import.meta.url), written);
  else expect(page).toBe(written);
});
