/** Whatever is typed behind the program's name is done or refused in words. */

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Command, Option } from 'commander';
import fc from 'fast-check';
import { afterAll, beforeEach, expect, test } from 'vitest';
import { commands } from '../../cli/main.js';
import { ownFolder } from '../support/folder.js';
import { amount } from './amount.js';
import { asked, endHost } from './program.js';
import { WORDS, WRONG } from './words.js';

const FOLDER = ownFolder();
afterAll(endHost);

const LINE = `start: 2027-01-04
weeks: 8
stages: [{name: tray, channels: 1, holes: 4}, {name: bench, channels: 1, holes: 4}]
crops: [{name: leaf, sow: {every: 3, seeds: 2}, stages: {tray: {days: 3, spread: 0.2}, bench: {days: 9, spread: 0.2}}}]
`;
const LOG = `date,action,crop,batch,stage,count
2027-01-04,sow,leaf,B1,tray,2
2027-01-07,move,,B1,bench,2
`;

beforeEach(() => {
  writeFileSync(join(FOLDER, 'line.yaml'), LINE);
  writeFileSync(join(FOLDER, 'season.csv'), LOG);
});

/** The commands and options as the program itself knows them, so that those that are added later are tried too. */
const COMMANDS = commands(() => {}, []).commands.filter((command) => command.name() !== 'watch');

/** What may stand behind an option: right for one or another of them, or for none. */
const value = fc.oneof(
  fc.constantFrom(
    '1',
    '2',
    '3',
    '1/2',
    '2,3',
    '2..3',
    'mon',
    'mon+thu',
    'daily',
    '0.9',
    'holes',
    'tray=1..2',
  ),
  fc.constantFrom(
    'now',
    '2027-01-10',
    'line.yaml',
    'season.csv',
    'B1',
    'leaf',
    'tray',
    'sow',
    'move',
    'heads_a_week',
  ),
  // Seasons that are many must not be asked for.
  fc.constantFrom(...[...WRONG.map(String), ...WORDS].filter((word) => !(Number(word) > 50))),
  fc.constantFrom(
    '0',
    '-1',
    '1e3',
    '3/2',
    '0/0',
    '9..1',
    '1..',
    ',',
    '=',
    'tray=',
    '=1',
    'a=1..2',
    '2027-13-01',
    'mon+mon',
  ),
);

/** Files that would be written into are in the folder of the test. */
function isSafe(word: string): boolean {
  return !/^(\.\.|\/)/.test(word);
}

const HELP = new Option('-h, --help');

function wordsFor(command: Command): fc.Arbitrary<string[]> {
  const option = fc.constantFrom(...command.options, HELP).chain(({ long, short, required }) => {
    const name = fc.constantFrom(...[long, short].filter((form) => form != null));
    if (!required) return name.map((form) => [form]);
    return fc.oneof(
      { weight: 6, arbitrary: fc.tuple(name, value).map(([form, given]) => [form, given]) },
      { weight: 1, arbitrary: value.map((given) => [`${long}=${given}`]) },
      { weight: 1, arbitrary: name.map((form) => [form]) },
    );
  });
  const argument = fc.oneof(fc.constantFrom('line.yaml', 'season.csv', '-'), value).map((word) => [word]);
  const some = (what: fc.Arbitrary<string[]>, most: number) => fc.array(what, { maxLength: most });
  return fc
    .tuple(some(argument, 3), some(option, 4))
    .chain(([words, options]) =>
      fc.shuffledSubarray([...words, ...options], { minLength: words.length + options.length }),
    )
    .map((all) => [command.name(), ...all.flat()]);
}

const line = fc.oneof(
  { weight: 8, arbitrary: fc.constantFrom(...COMMANDS).chain(wordsFor) },
  { weight: 1, arbitrary: fc.array(value, { minLength: 1, maxLength: 4 }) },
);

test('any arguments are answered or refused in words', async () => {
  let done = 0;
  await fc.assert(
    fc.asyncProperty(line, async (args) => {
      fc.pre(args.every(isSafe));
      const { code } = await asked(args, FOLDER, LINE);
      if (code === 0) done++;
    }),
    amount(200),
  );
  expect(done).toBeGreaterThan(amount(10).numRuns);
});
