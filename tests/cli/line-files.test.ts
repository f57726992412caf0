import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { SHELF, SHELF_LOG } from '../support/examples.js';
import { ownFolder } from '../support/folder.js';
import { evensow } from './program.js';

const folder = ownFolder();
const LINE = readFileSync(SHELF, 'utf8');
/** The first weeks of a season: enough to tell that it was read. */
const LOG = readFileSync(SHELF_LOG, 'utf8').split('\n').slice(0, 12).join('\n');

/** A file in the folder of these tests. */
function put(name: string, text: string): string {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
}

const scenario = put('line', LINE);
const log = put('season', LOG);
const naming = put('my-line.yaml', `${LINE}\nlog: season\n`);
const FEW = ['--seasons', '5'];

/** The commands that read both, with what makes them quick. */
const COMMANDS: [command: string, ...options: string[]][] = [
  ['ahead', ...FEW, '--weeks', '1'],
  ['chores', ...FEW, '--days', '2'],
  ['replay', '--json'],
  ['fit', '--json'],
];

async function told(args: readonly string[], input?: string): Promise<string> {
  const { code, out } = await evensow(args, { cwd: folder, ...(input === undefined ? {} : { input }) });
  expect(code).toBe(0);
  return out;
}

async function refused(args: readonly string[], input?: string): Promise<string> {
  const { code, out, err } = await evensow(args, { cwd: folder, ...(input === undefined ? {} : { input }) });
  expect({ code, out }).toEqual({ code: 2, out: '' });
  expect(err.match(/^evensow: /gm)).toHaveLength(1);
  return err;
}

describe.each(COMMANDS)('evensow %s', (command, ...options) => {
  test('takes the scenario and the log in either order, whatever their names', async () => {
    const one = await told([command, scenario, log, ...options]);
    expect(await told([command, log, scenario, ...options])).toBe(one);
  });

  test('needs the scenario only if that names its log', async () => {
    const both = await told([command, naming, log, ...options]);
    expect(await told([command, naming, ...options])).toBe(both);
    // From its own folder as from any other.
    expect(await told([command, 'my-line.yaml', ...options])).toBe(both.replaceAll(naming, 'my-line.yaml'));
  });

  test('tells what standard input is by what it says', async () => {
    const piped = await told([command, '-', scenario, ...options], LOG);
    expect(await told([command, scenario, '-', ...options], LOG)).toBe(piped);
    expect(await told([command, '-', log, ...options], LINE)).toBe(
      await told([command, log, '-', ...options], LINE),
    );
    // Read from a pipe, a scenario lies where the program was started.
    expect(await told([command, '-', ...options], `${LINE}\nlog: season\n`)).toBe(
      await told([command, '-', log, ...options], LINE),
    );
  });

  test('refuses two of a kind, and says what is missing', async () => {
    const logs = await refused([command, log, put('again.yaml', LOG), ...options]);
    expect(logs).toMatch(
      /season and .*again\.yaml must not both be given, for each is a season log \(CSV\)\./,
    );
    expect(logs).toContain(`Example: evensow ${command} ${log} my-line.yaml`);
    const scenarios = await refused([command, scenario, naming, ...options]);
    expect(scenarios).toContain('for each is a scenario (YAML).');
    expect(scenarios).toContain(
      `takes one and a season log (CSV). Example: evensow ${command} ${scenario} season.csv`,
    );
  });

  test('says how it is typed if no file is named', async () => {
    expect(await refused([command])).toContain(`Example: evensow ${command} my-line.yaml season.csv`);
  });
});

test('a log that is named goes before the one in the scenario', async () => {
  const first = put('first.csv', LOG.split('\n').slice(0, 5).join('\n'));
  const result = JSON.parse(await told(['replay', naming, first, '--json']));
  expect(result).toEqual(JSON.parse(await told(['replay', scenario, first, '--json'])));
  expect(result).not.toEqual(JSON.parse(await told(['replay', naming, '--json'])));
});

describe('one file where two are needed', () => {
  test.each(['ahead', 'replay', 'fit'])('%s of a scenario that names no log', async (command) => {
    expect(await refused([command, scenario])).toContain(
      `line names no log, and evensow ${command} needs a season log (CSV). Name it too, or write it into the scenario (log: season.csv). Example: evensow ${command} ${scenario} season.csv`,
    );
  });

  test.each(['ahead', 'chores', 'watch'])('%s of a log alone', async (command) => {
    expect(await refused([command, log])).toContain(
      `season is a season log, and evensow ${command} needs a scenario (YAML). Name the scenario of its line too. Example: evensow ${command} ${log} my-line.yaml`,
    );
  });

  test.each(['run', 'check', 'compare', 'size'])('%s of a log says that it is one', async (command) => {
    expect(await refused([command, log])).toContain(
      'season is a season log (CSV). It must be a scenario (YAML).',
    );
  });
});

describe('a scenario that names a log which is not there', () => {
  const early = put('early.yaml', `${LINE}\nlog: none.csv\n`);
  const none = join(folder, 'none.csv');

  test.each(['ahead', 'replay', 'fit'])('%s says how it begins', async (command) => {
    expect(await refused([command, early])).toContain(
      `${none}, the log that ${early} names, is not there, and evensow ${command} needs one. It begins with: evensow log sow 6 butterhead --to ${none}`,
    );
  });

  test.each([['chores', ...FEW, '--days', '2'], ['watch']])(
    '%s goes on from an empty line, and says so',
    async (command, ...options) => {
      const { code, out, err } = await evensow([command, early, ...options]);
      expect(code).toBe(0);
      expect(err).toContain(`Note: ${none}, the log that ${early} names, is not there yet`);
      expect(out).toBe((await evensow([command, scenario, ...options])).out);
    },
  );
});

test('a text that is neither is judged as what it was named for', async () => {
  const odd = put('odd.csv', 'grow me a salad\n');
  expect(await refused(['replay', scenario, odd])).toContain('expected a header line');
  expect(await refused(['replay', odd, scenario])).toContain('expected a header line');
  expect(await refused(['ahead', put('odd.yaml', 'grow me a salad\n'), log])).toContain(
    'odd.yaml has 1 fault',
  );
});

test('a log is known by its header, with any separator, in any case', async () => {
  const semicolons = put(
    'semicolons',
    LOG.replaceAll(',', ';').replace(/^.*/, (names) => `\uFEFF${names.toUpperCase()}`),
  );
  expect(await told(['replay', scenario, semicolons, '--json'])).toBe(
    await told(['replay', scenario, log, '--json']),
  );
});

test('the screen takes both in either order too', async () => {
  const one = await evensow(['watch', scenario, log]);
  const other = await evensow(['watch', log, scenario]);
  expect(other).toMatchObject({ code: 0, out: one.out });
  const named = await evensow(['watch', naming]);
  expect(named.err).toContain(`Of the log, see: evensow replay ${naming}\n`);
});

describe('evensow log', () => {
  const HEADER = 'date,action,crop,batch,stage,channel,count,grams,note\n';
  const TOWER = LINE.replaceAll('nursery', 'tower');
  const SOW = ['log', 'sow', '6', 'butterhead', '--date', '2027-01-04'];
  const MOVE = ['log', 'move', '6', 'B1', 'tower', '--date', '2027-01-11'];

  /** A folder with these files. */
  function folderOf(name: string, files: Readonly<Record<string, string>>): string {
    const path = join(folder, name);
    mkdirSync(path);
    for (const [file, text] of Object.entries(files)) writeFileSync(join(path, file), text);
    return path;
  }
  const added = (cwd: string, file: string): string =>
    readFileSync(join(cwd, file), 'utf8').slice(HEADER.length);

  test('takes line and log from the one scenario of the folder that names a log, and says so', async () => {
    const cwd = folderOf('one', {
      'a-line.yaml': `log: 2027.csv\n${TOWER}`,
      'b-line.yaml': LINE,
      'notes.yaml': 'log: mine.csv\n',
      'package.json': '{"log": "x", "stages": 3}',
    });
    for (const args of [SOW, MOVE]) {
      const { code, err } = await evensow(args, { cwd });
      expect({ code, err }).toEqual({
        code: 0,
        err: 'Note: written into 2027.csv, the log that a-line.yaml names.\n',
      });
    }
    expect(added(cwd, '2027.csv')).toBe(
      '2027-01-04,sow,butterhead,B1,germination,,6,,\n2027-01-11,move,butterhead,B1,tower,,6,,\n',
    );
    expect(await refused2(['log', 'sow', '6', 'rocket'], cwd)).toContain('found "rocket"');
  });

  const refused2 = async (args: readonly string[], cwd: string): Promise<string> => {
    const { code, out, err } = await evensow(args, { cwd });
    expect({ code, out }).toEqual({ code: 2, out: '' });
    return err;
  };

  test('a log that is named is the one, and a scenario that is named tells its own', async () => {
    const cwd = folderOf('named', { 'line.yaml': `log: 2027.csv\n${TOWER}` });
    expect(await evensow([...SOW, '--to', 'other.csv'], { cwd })).toMatchObject({ code: 0, err: '' });
    expect(added(cwd, 'other.csv')).toBe('2027-01-04,sow,butterhead,B1,,,6,,\n');
    await evensow([...SOW, '--line', join(cwd, 'line.yaml')]);
    expect(added(cwd, '2027.csv')).toBe('2027-01-04,sow,butterhead,B1,germination,,6,,\n');
  });

  test('asks which of several is meant, unless they say the same, as after a fit', async () => {
    const cwd = folderOf('several', {
      'a.yaml': `log: 2027.csv\n${TOWER}`,
      'fitted.yaml': `log: 2027.csv\n${TOWER.replace('days: 14', 'days: 15')}`,
    });
    expect(await evensow(SOW, { cwd })).toMatchObject({ code: 0 });
    writeFileSync(join(cwd, 'other.yaml'), `log: 2028.csv\n${TOWER}`);
    expect(await refused2(SOW, cwd)).toContain(
      'nothing was written, for a.yaml and fitted.yaml and other.yaml each name a log. Name the one that is meant. Example: --line a.yaml',
    );
    expect(await evensow([...SOW, '--line', 'other.yaml'], { cwd })).toMatchObject({ code: 0 });
    expect(added(cwd, '2028.csv')).toContain('sow,butterhead,B1');
  });

  test('does not guess past a scenario with a fault', async () => {
    const cwd = folderOf('faulty', { 'line.yaml': `log: 2027.csv\n${TOWER.replace('weeks:', 'weks:')}` });
    const err = await refused2(SOW, cwd);
    expect(err).toMatch(/^evensow: nothing was written\. line\.yaml has 1 fault:/);
    expect(err).toContain('or name the log: --to season.csv');
  });
});
