import { chmod, open, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { ownFolder } from '../support/folder.js';
import { interrupted } from './ctrl-c.js';
import { BINARY, evensow, program } from './program.js';

const GOOD = `start: 2027-01-04
weeks: 10
stages:
  - {name: tray, channels: 1, holes: 20}
  - {name: finishing, channels: 2, holes: 10}
crops:
  - name: leaf
    sow: {every: 7, seeds: 10}
    stages:
      tray: {days: 7, spread: 0.1}
      finishing: {days: 20, spread: 0.1}
`;

const HEADER = 'date,action,crop,batch,stage,channel,count,grams,note\n';

const folder = ownFolder();
let count = 0;

async function fileOf(content: string | Uint8Array): Promise<string> {
  const path = join(folder, `scenario-${count++}.yaml`);
  await writeFile(path, content);
  return path;
}

/** One clear message on standard error, nothing on standard output, exit code 2, no stack. */
async function refused(args: readonly string[], ...parts: (string | RegExp)[]): Promise<void> {
  const { code, out, err } = await evensow(args);
  expect(out).toBe('');
  for (const part of parts) expect(err).toMatch(part);
  expect(err).not.toMatch(/\bat .*:\d+:\d+\)?$/m);
  expect(err.match(/^evensow: /gm)).toHaveLength(1);
  expect(code).toBe(2);
}

test('the good scenario that the others are made from runs', async () => {
  expect(await evensow(['run', await fileOf(GOOD), '--seasons', '2'])).toMatchObject({ code: 0, err: '' });
});

describe('a file that is wrong', () => {
  // All faults there are: tests/scenario/faults.test.ts.
  test('a fault is named with its place, what was found and what was expected', async () => {
    const path = await fileOf(GOOD.replace('weeks: 10', 'weeks: many'));
    await refused(['check', path], /line 2, column 8: weeks\n/, /found "many"/, /expected a whole number/);
    const unknown = await fileOf(GOOD.replace('weeks: 10', 'weeks: 10\nweaks: 3'));
    await refused(['check', unknown], /line 3, column 1: weaks\n/, /Did you mean weeks\?/);
  });

  test('every fault is told at once', async () => {
    const text = GOOD.replace('weeks: 10', 'weeks: 0')
      .replace('holes: 20', 'holes: -1')
      .replace('days: 7', 'days: x');
    await refused(
      ['run', await fileOf(text)],
      /3 faults/,
      /weeks/,
      /: stage 1, holes \(stages\[0\]\.holes\)$/m,
      /: crop 1, tray, days \(crops\[0\]\.stages\.tray\.days\)$/m,
    );
  });

  test.each<[slip: string, from: string | RegExp, to: string, ...parts: RegExp[]]>([
    [
      'a bracket that is not closed',
      'holes: 20}',
      'holes: 20',
      /found a line that begins in the wrong column, or a bracket that is not closed \(not YAML: /,
    ],
    ['two keys in one line', 'weeks: 10', 'weeks: 10 seed: 3', /found two keys in one line, .*\(not YAML: /],
    ['a word for keys', /sow: .*/, 'sow: weekly', /found "weekly"; expected exactly one of the keys every, /],
    [
      'a list for keys',
      /sow: .*/,
      'sow: [3, 10]',
      /found a list of 2; expected exactly one of the keys every, /,
    ],
    [
      'keys for a number',
      'weeks: 10',
      'weeks: {from: 1}',
      /found keys and values \(a map\); expected a whole number/,
    ],
    [
      'a date of sowing',
      /sow: .*/,
      'sow: {dates: [2027-01-04, soon], seeds: 2}',
      /: crop 1, sow, date 2 \(crops\[0\]\.sow\.dates\[1\]\)$/m,
    ],
    [
      'an absence',
      'weeks: 10',
      'weeks: 10\naway: [{from: 2027-01-04}]',
      /: absence 1, to \(away\[0\]\.to\)$/m,
    ],
  ])('%s is told in words', async (_, from, to, ...parts) => {
    expect(GOOD).toMatch(from);
    await refused(['check', await fileOf(GOOD.replace(from, to))], ...parts);
  });

  test('what may surprise is noted, in words too', async () => {
    const path = await fileOf(
      GOOD.replace('weeks: 10', 'weeks: 10\naway: [{from: 2026-12-24, to: 2027-01-02}]').replace(
        'seeds: 10',
        'seeds: 50',
      ),
    );
    const { code, out, err } = await evensow(['check', path]);
    expect(code).toBe(0);
    expect(out).toContain('no faults.');
    expect(err).toMatch(
      /: absence 1 \(away\[0\]\): 2026-12-24 to 2027-01-02 is before the start of the season/,
    );
    expect(err).toMatch(
      /: crop 1, sow, seeds \(crops\[0\]\.sow\.seeds\): 50 seeds of \w+ are sown at a time, and tray has 20 cells: 30 or more of them cannot be sown\./,
    );
  });

  test.each<[name: string, content: string | Uint8Array, part: RegExp]>([
    ['an empty file', '', /empty/],
    ['a file of comments', '# nothing\n', /empty/],
    ['a file that is not YAML', 'a: [1, 2\nb: }', /line 2/],
    ['a list', '- a\n- b\n', /list/],
    ['a sentence', 'grow me a salad\n', /salad/],
    [
      'a picture',
      new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0x0d, 0xff, 0xfe]),
      /UTF-8/,
    ],
    ['very deep nesting', '['.repeat(50_000), /line 1/],
  ])('%s is refused', async (_, content, part) => {
    await refused(['run', await fileOf(content)], part);
  });

  test('a file of 100 MB is refused without being read whole', async () => {
    const path = join(folder, 'large.yaml');
    const file = await open(path, 'w');
    await file.truncate(100_000_000);
    await file.close();
    await refused(['run', path], /too large/);
  });
});

describe('a file that cannot be read', () => {
  test('a file that does not exist', async () => {
    await refused(['run', join(folder, 'no-such.yaml')], /no-such\.yaml/, /no such file/);
  });
  test('the built-in scenario is spoken of where it would run', async () => {
    const line = await fileOf(GOOD);
    const lost = join(folder, 'no-such.yaml');
    const log = join(folder, 'season.csv');
    await writeFile(log, `${HEADER}2027-01-04,sow,leaf,B1,,,6,,\n`);
    for (const args of [
      ['run', lost],
      ['check', lost],
      ['compare', line, lost],
      ['watch', lost],
    ]) {
      await refused(args, /without a file, evensow runs its built-in scenario/);
    }
    for (const args of [
      ['ahead', lost, log],
      ['chores', lost],
      ['replay', log, lost],
      ['fit', log, lost],
      ['log', 'sow', '6', 'leaf', '--to', log, '--line', lost],
    ]) {
      await refused(args, /no-such\.yaml: there is no such file\. Check the path\.\n$/);
    }
  });
  test('a folder, with what should be named in it', async () => {
    const line = await fileOf(GOOD);
    for (const [what, args] of [
      ['a scenario file', ['run', folder]],
      ['a season log', ['ahead', line, folder]],
      ['a season log', ['chores', line, folder]],
      ['a season log', ['replay', folder]],
      ['a season log', ['fit', folder]],
      ['a part', ['merge', folder]],
    ] as const) {
      await refused(args, new RegExp(`: this is a folder\\. Name ${what} in it\\.\n$`));
    }
  });
  test.skipIf(process.getuid?.() === 0)('a file without permission', async () => {
    const path = await fileOf(GOOD);
    await chmod(path, 0);
    await refused(['run', path], /may not be read/);
  });
  test.runIf(process.platform === 'linux')('an unreadable file, also for root', async () => {
    // Reading a process's own memory from its beginning fails for everybody.
    await refused(['run', '/proc/self/mem'], /cannot be read/);
  });
});

describe('options that are wrong', () => {
  test.each<[args: string[], part: RegExp]>([
    [['--seasons', '0'], /--seasons must not be "0"\. It must be a whole number from 1 to 1000000/],
    [['--seasons', '1000000000'], /--seasons must not be "1000000000"/],
    [['--seasons', '1e9'], /--seasons must not be "1e9"/],
    [['--seasons', '2.5'], /--seasons must not be "2\.5"/],
    [['--seasons', 'many'], /--seasons must not be "many"/],
    [['--seasons', '-3'], /--seasons must not be "-3"/],
    [['--seasons', ''], /--seasons must not be ""/],
    [['--seasons'], /argument missing/],
    [['--seed', '-1'], /--seed must not be "-1"/],
    [['--seed', 'x', '--seasons', '0'], /--seasons must not be "0"[\s\S]*--seed must not be "x"/],
    [['--seasns', '3'], /--seasons/],
    [['--json', '--csv'], /--csv/],
    [['one.yaml', 'two.yaml'], /too many arguments/],
  ])('%j', async (args, part) => {
    await refused(['run', ...args], part);
  });

  test.each([
    [['run', '--seasns', '3'], 'run'],
    [['--seasns', '3'], 'run'],
    [['one.yaml', 'two.yaml'], 'run'],
    [['search', '--head', '3'], 'search'],
    [['fit'], 'fit'],
    [['log', 'sow', '3', '--day', 'today'], 'log'],
  ])('%j points to the help of its command', async (args, command) => {
    await refused(args, new RegExp(`See: evensow ${command} --help\n$`));
  });

  test.each([
    [['compare', '--every'], ''],
    [['search', '--heads', '3', '--every'], ''],
    [['size', '--channels'], 'nursery='],
  ])('%j takes ranges that run up, of 1000 values at most', async ([...args], stage) => {
    await refused(
      [...args, `${stage}7..2`],
      /must not hold "7\.\.2"\. That range runs down; it must run up, .* Write 2\.\.7 instead\.\n$/,
    );
    // From 2 to 1002 there are 1001 whole numbers.
    await refused(
      [...args, `${stage}2..1002`],
      /must not hold "2\.\.1002"\. That range has 1001 values; it must have 1000 at most\. /,
    );
    const { err } = await evensow([...args, `${stage}2..1001,x`]);
    expect(err).toContain('must not hold "x".');
    expect(err).not.toContain('values');
  });
});

describe('a word that is no command', () => {
  test.each([
    [['fitt', 'season.csv'], 'fitt is no command, and there is no file of that name. Did you mean fit?'],
    [['fitt'], 'fitt is no command, and there is no file of that name. Did you mean fit?'],
    [['rnu', '--seasons', '3'], 'rnu is no command, and there is no file of that name. Did you mean run?'],
    [
      ['compair', 'a.yaml', 'b.yaml'],
      'compair is no command, and there is no file of that name. Did you mean compare?',
    ],
    [['xyz'], 'xyz is no command, and there is no file of that name. The commands are new, watch, run, '],
    [['help', 'xyz'], 'xyz is no command and no word that is explained. The commands are new, watch, run, '],
    [['help', 'comprae'], 'comprae is no command and no word that is explained. Did you mean compare?'],
  ])('%j is named', async (args, message) => {
    await refused(
      args,
      new RegExp(`^evensow: ${message.replaceAll(/[.?]/g, '\\$&')}`),
      /See: evensow --help\n$/,
    );
  });

  test('is the scenario if there is a file of that name', async () => {
    await writeFile(join(folder, 'fitt'), GOOD);
    const { code, out } = await evensow(['fitt', '--seasons', '2'], { cwd: folder });
    expect(out).toContain('2 seasons simulated');
    expect(code).toBe(0);
  });

  test('is a file that is not there if it is a path', async () => {
    await refused(['fitt.yaml'], /^evensow: fitt\.yaml: there is no such file\./);
    await refused(['./fitt'], /^evensow: \.\/fitt: there is no such file\./);
  });

  test('help on what is one is given', async () => {
    for (const args of [['help'], ['help', 'fit'], ['help', '--help']]) {
      expect(await evensow(args)).toMatchObject({ code: 0, err: '', out: expect.stringMatching(/^Usage: /) });
    }
  });
});

describe('standard input and output', () => {
  test.each([
    ['compare', ['compare', '-', '-'], 'both'],
    ['compare', ['compare', '-', 'line.yaml', '-'], 'all'],
    ['merge', ['merge', '-', '-'], 'both'],
    ['ahead', ['ahead', '-', '-'], 'both'],
    ['chores', ['chores', '-', '-'], 'both'],
    ['watch', ['watch', '-', '-'], 'both'],
  ])('%s takes one input from standard input: %j', async (command, args, both) => {
    await refused(
      args,
      new RegExp(`must not ${both} be read from standard input\\. .* Example: evensow ${command} `),
    );
  });

  test('the log that is to be watched is looked at, also where nothing can be drawn', async () => {
    const line = await fileOf(GOOD);
    const log = join(folder, 'watched.csv');
    await refused(['watch', line, log], /^evensow: .*watched\.csv: there is no such file\./);
    await writeFile(log, `${HEADER}2027-01-04,sow,leaf,B1,,,many,,\n`);
    await refused(['watch', line, log], /watched\.csv has 1 fault:/);
    await writeFile(log, `${HEADER}2027-01-04,sow,leaf,B1,,,6,,\n`);
    const { code, out, err } = await evensow(['watch', line, log]);
    expect(out).toBe((await evensow(['run', line])).out);
    expect(err).toContain(`evensow replay ${line} ${log}\n`);
    expect(code).toBe(0);
  });

  test('a scenario is read from standard input', async () => {
    const { code, out } = await evensow(['run', '-', '--seasons', '2', '--json'], { input: GOOD });
    expect(JSON.parse(out).seasons).toBe(2);
    expect(code).toBe(0);
  });

  test.skipIf(process.platform === 'win32')(
    'a reader that leaves early is told of once and is no failure',
    async () => {
      // The reader is gone before the program starts.
      const script = `exec 3> >(true); wait $!; "${process.execPath}" "${BINARY}" schema >&3; echo "code $?" >&2`;
      const { err } = await program('bash', ['-c', script]);
      expect(err).toContain('code 0');
      expect(err).not.toMatch(/EPIPE|at .*:\d+/);
      expect(err.match(/evensow: /g) ?? []).toHaveLength(1);
    },
  );

  test.skipIf(process.platform === 'win32')(
    'Ctrl-C shows what is known by then, marked as partial, and ends with 130',
    async () => {
      const path = await fileOf(GOOD);
      // Seasons are told some thousands at a time.
      const { code, out, err } = await interrupted(
        ['run', path, '--seasons', '1000000', '--workers', '1', '--json'],
        /\d\d \d{3} of 1 000 \d{3} seasons/,
      );
      const result = JSON.parse(out);
      expect(result.partial).toBe(true);
      expect(result.seasons).toBeGreaterThan(0);
      expect(result.seasons).toBeLessThan(1_000_000);
      expect(err).toBe('evensow: stopped; what was known by then is shown.\n');
      expect(code).toBe(130);
    },
  );
});
