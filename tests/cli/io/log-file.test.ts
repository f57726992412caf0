import type { ChildProcess } from 'node:child_process';
import { appendFileSync, mkdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import {
  chmod,
  mkdir,
  mkdtemp,
  readdir,
  readFile,
  readlink,
  stat,
  symlink,
  utimes,
  writeFile,
} from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { afterEach, beforeAll, describe, expect, test, vi } from 'vitest';
import { appendToLog } from '../../../cli/io/log-file.js';
import { readLog } from '../../../sim/season/log/read.js';
import type { LogRow } from '../../../sim/season/log/rows.js';
import { ownFolder } from '../../support/folder.js';
import { BINARY, evensowAlone, program } from '../program.js';

const STEP_BY_STEP = new URL('step-by-step.mjs', import.meta.url).href;

const HEADER = 'date,action,crop,batch,stage,channel,count,grams,note\n';
const ROW = '2027-01-04,sow,leaf,B1,,,6,,\n';

const room = ownFolder();
const appender = join(room, 'appender.mjs');
beforeAll(async () => {
  await build({
    entryPoints: [fileURLToPath(new URL('appender.ts', import.meta.url))],
    outfile: appender,
    bundle: true,
    platform: 'node',
    format: 'esm',
    banner: {
      js: "import { createRequire } from 'node:module';\nconst require = createRequire(import.meta.url);",
    },
  });
});

/** Path of a log in a folder of its own, with a text or not there yet. */
async function newLog(text?: string): Promise<string> {
  const log = join(await mkdtemp(join(room, 'line-')), 'season.csv');
  if (text !== undefined) await writeFile(log, text);
  return log;
}

async function rowsOf(log: string): Promise<readonly LogRow[]> {
  const reading = readLog(await readFile(log, 'utf8'), null);
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.value.rows;
}

async function append(log: string, row: string): Promise<void> {
  await appendToLog(log, () => ({ instead: null, text: row, result: null }));
}

async function beside(log: string): Promise<string[]> {
  return (await readdir(dirname(log))).sort();
}

const SOW = ['log', 'sow', '6', 'leaf', '--date', '2027-01-04', '--to'];

describe.concurrent('no confirmed row is lost and none is half', () => {
  /** What is left of a program that was killed counts as old at once, so that the next need not wait for it. */
  async function age(log: string): Promise<boolean> {
    const lock = await stat(`${log}.lock`).catch(() => null);
    if (lock !== null) await utimes(`${log}.lock`, 0, 0);
    return lock !== null || (await beside(log)).some((name) => name.endsWith('.part'));
  }

  /** Runs the program with `step-by-step.mjs`. */
  async function stepwise(args: readonly string[], env: Record<string, string>) {
    return await program(process.execPath, ['--import', STEP_BY_STEP, BINARY, ...args], { env });
  }

  /** The lock and half a log of one that was killed before: to take these over is among the steps of the next. */
  async function leftOver(log: string): Promise<void> {
    await mkdir(`${log}.lock`);
    await writeFile(join(dirname(log), '.season.csv.4194999.00ab.part'), HEADER.slice(9));
    await age(log);
  }

  /** The log as each of the program's steps finds it, in a folder of its own with all that is beside it, and what the program said. */
  async function atEachStep(args: readonly string[], log: string) {
    await leftOver(log);
    const into = await mkdtemp(join(room, 'steps-'));
    const { code, out } = await stepwise([...args, log], { OF: dirname(log), INTO: into });
    expect(code).toBe(0);
    const steps = (await readdir(into)).map(Number).sort((a, b) => a - b);
    return { out, found: steps.map((step) => join(into, `${step}`, 'season.csv')) };
  }

  /** Text of a log that a killed program has left; the next one adds to it and tidies up. */
  async function goneOnWith(log: string): Promise<{ text: string; midway: boolean }> {
    const text = await readFile(log, 'utf8');
    const midway = await age(log);
    await append(log, 'x');
    expect(await readFile(log, 'utf8')).toBe(`${text}x`);
    expect(await beside(log)).toEqual(['season.csv']);
    return { text, midway };
  }

  const SOWN = '2027-01-04,sow,leaf,B2,,,6,,\n';

  test('at whichever of its steps the program is killed', async () => {
    const log = await newLog(HEADER + ROW);
    const { out, found } = await atEachStep(SOW, log);
    expect(out).toContain('as B2.');
    expect(await readFile(log, 'utf8')).toBe(HEADER + ROW + SOWN);
    let midway = 0;
    for (const copy of found) {
      const left = await goneOnWith(copy);
      expect([HEADER + ROW, HEADER + ROW + SOWN]).toContain(left.text);
      if (left.midway) midway++;
    }
    // It was met at work: with its lock, and with the new log beside the old one.
    expect(midway).toBeGreaterThanOrEqual(10);
    expect(await beside(log)).toEqual(['season.csv']);
  });

  test('and what a program that is killed leaves is what was found at that step', async () => {
    const nameless = (names: readonly string[]): string[] =>
      names.map((name) => name.replace(/\.\d+\.\w+\.part$/, '.part')).sort();
    const { found } = await atEachStep(SOW, await newLog(HEADER + ROW));
    for (let step = 2; step < found.length; step += 5) {
      const log = await newLog(HEADER + ROW);
      await leftOver(log);
      const { code, out } = await stepwise([...SOW, log], { KILL_AT: `${step}` });
      expect({ code, out }).toEqual({ code: null, out: '' });
      expect(await readFile(log, 'utf8')).toBe(await readFile(found[step]!, 'utf8'));
      expect(nameless(await beside(log))).toEqual(nameless(await beside(found[step]!)));
    }
  });

  test('also where the whole log is written anew, because a first row of the tank makes it wider', async () => {
    const [mark, header] = ['\uFEFF', HEADER.trim().replaceAll(',', ';')];
    const row = '4.1.2027;sow;leaf;B1;;;6;;"a; ""b"""';
    const old = `${mark}${header}\r\n${row}\r\n`;
    const wider = `${mark}${header};litres;ec\r\n${row};;\r\n5.1.2027;tank;;;;;;;;12,5;1,6\r\n`;
    const tank = ['log', 'tank', '--litres', '12.5', '--ec', '1.6', '--date', '2027-01-05', '--to'];
    const log = await newLog(old);
    const { found } = await atEachStep(tank, log);
    expect(await readFile(log, 'utf8')).toBe(wider);
    const left = { old: 0, wider: 0 };
    for (const copy of found) {
      const { text, midway } = await goneOnWith(copy);
      expect([old, wider]).toContain(text);
      if (midway) left[text === old ? 'old' : 'wider']++;
    }
    // It was met at work before the renaming and behind it.
    expect(left.old).toBeGreaterThanOrEqual(8);
    expect(left.wider).toBeGreaterThanOrEqual(1);
    expect(await beside(log)).toEqual(['season.csv']);
  });

  test('eight shells at once lose none of their rows, and no two batches get one name', async () => {
    const log = await newLog();
    const shells = Array.from({ length: 8 }, async () => await program(process.execPath, [appender, log]));
    for (const { code, err } of await Promise.all(shells)) {
      expect({ code, err }).toEqual({ code: 0, err: expect.not.stringMatching(/nothing was written/i) });
    }
    const names = (await rowsOf(log)).map(({ batch }) => batch);
    expect(names).toEqual(Array.from({ length: 40 }, (_, i) => `B${i + 1}`));
  });

  test.skipIf(process.platform === 'win32')(
    'whoever is ended in the middle of writing leaves the log as it was',
    async () => {
      const long = HEADER + Array.from({ length: 300 }, (_, i) => ROW.replace('B1', `B${i}`)).join('');
      const log = await newLog(long);
      // No file may grow beyond 4 blocks of 1024 bytes: the system ends the program at the first byte more.
      const command = `ulimit -f 4; exec "${process.execPath}" "${BINARY}" ${SOW.join(' ')} "${log}"`;
      const { code, out } = await program('bash', ['-c', command]);
      expect({ code, out }).toEqual({ code: null, out: '' });
      expect(await readFile(log, 'utf8')).toBe(long);
      // What it left is half a log; the next one removes it.
      expect((await beside(log)).some((name) => name.endsWith('.part'))).toBe(true);
      await age(log);
      expect((await evensowAlone([...SOW, log])).out).toContain('as B300');
      expect(await beside(log)).toEqual(['season.csv']);
    },
  );
});

test('no log grows larger than can be read', async () => {
  const full = Buffer.alloc(64_000_000, '\n');
  const log = await newLog();
  await writeFile(log, full);
  const text = { instead: null, text: ROW, result: null };
  await expect(appendToLog(log, () => text)).rejects.toThrow(/more than 64 MB\. Nothing was written/);
  expect((await stat(log)).size).toBe(full.length);
  expect(await beside(log)).toEqual(['season.csv']);
});

describe.concurrent('waiting for one another', () => {
  test('a lock is waited for, and taken over when nobody renews it any more', async () => {
    const log = await newLog();
    await mkdir(`${log}.lock`);
    // Whoever holds it is killed as soon as the other has said that it waits.
    const renewed = setInterval(() => void utimes(`${log}.lock`, new Date(), new Date()), 500);
    const started = (child: ChildProcess) => child.stderr!.once('data', () => clearInterval(renewed));
    const { code, err } = await evensowAlone([...SOW, log], { started });
    expect(err).toMatch(/^evensow: waiting for another evensow that writes to .*season\.csv\.\n$/);
    expect(code).toBe(0);
    expect(await rowsOf(log)).toHaveLength(1);
    expect(await beside(log)).toEqual(['season.csv']);
  });
});

test('a lock of a time that is still to come, as after the clock was set back, does not stand in the way for ever', async () => {
  const log = await newLog();
  await mkdir(`${log}.lock`);
  const years = new Date(Date.now() + 3e11);
  await utimes(`${log}.lock`, years, years);
  const { code, err } = await evensowAlone([...SOW, log]);
  expect(err).toContain(
    `${log}.lock is of a time that is still to come; the clock of this machine was probably set back.`,
  );
  expect(code).toBe(0);
  expect(await rowsOf(log)).toHaveLength(1);
  expect(await beside(log)).toEqual(['season.csv']);
});

describe('with a clock that runs ahead by four seconds at each look', () => {
  /** @param looked called at each look at the clock */
  function hurry(looked: () => void = () => {}): void {
    let now = 0;
    vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    vi.spyOn(performance, 'now').mockImplementation(() => {
      looked();
      now += 4000;
      return now;
    });
  }
  afterEach(() => {
    vi.restoreAllMocks();
  });

  test('a lock that one holds on and on is named, with what to do', async () => {
    const log = await newLog();
    await mkdir(`${log}.lock`);
    hurry();
    await expect(append(log, ROW)).rejects.toThrow(
      /another evensow.*Nothing was written.*remove the folder .*season\.csv\.lock/,
    );
    expect(await beside(log)).toEqual(['season.csv.lock']);
  });

  test('a lock that passes from one to the next is waited for', async () => {
    const log = await newLog(HEADER);
    await mkdir(`${log}.lock`);
    let turns = 0;
    hurry(() => {
      if (++turns > 20) rmSync(`${log}.lock`, { recursive: true, force: true });
      else {
        mkdirSync(`${log}.next`);
        renameSync(`${log}.next`, `${log}.lock`);
      }
    });
    await append(log, ROW);
    expect(turns).toBeGreaterThan(20);
    expect(await rowsOf(log)).toHaveLength(1);
  });
});

describe('a program that does not know the lock', () => {
  test('is noticed if it saves meanwhile, and nobody loses a row', async () => {
    const log = await newLog(HEADER + ROW);
    const told = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    const seen: string[] = [];
    await appendToLog(log, (text) => {
      // Asked for the row, somebody else saves the file.
      if (seen.push(text) === 1) appendFileSync(log, ROW.replace('B1', 'B2'));
      return { instead: null, text: ROW.replace('B1', 'B3'), result: null };
    });
    expect(seen).toEqual([HEADER + ROW, HEADER + ROW + ROW.replace('B1', 'B2')]);
    expect((await rowsOf(log)).map(({ batch }) => batch)).toEqual(['B1', 'B2', 'B3']);
    expect(told.mock.calls.join()).toMatch(/another program has changed .*season\.csv meanwhile/);
    vi.restoreAllMocks();
  });

  test('is named if it never stops saving, and nothing is written', async () => {
    const log = await newLog(HEADER);
    vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    let saves = 0;
    const endless = appendToLog(log, () => {
      saves++;
      // A new file of the same length under the same name, as programs save.
      rmSync(log);
      writeFileSync(log, HEADER);
      return { instead: null, text: ROW, result: null };
    });
    await expect(endless).rejects.toThrow(/keeps changing the file\. Nothing was written/);
    expect(saves).toBe(5);
    expect(await readFile(log, 'utf8')).toBe(HEADER);
    expect(await beside(log)).toEqual(['season.csv']);
    vi.restoreAllMocks();
  });

  test('who lost the lock while asleep begins again', async () => {
    const log = await newLog(HEADER);
    vi.spyOn(process.stderr, 'write').mockReturnValue(true);
    let asked = 0;
    await appendToLog(log, () => {
      if (++asked === 1) {
        // Somebody took the lock for a leftover and made a new one.
        rmSync(`${log}.lock`, { recursive: true });
        mkdirSync(`${log}.lock`);
      }
      return { instead: null, text: ROW, result: null };
    });
    expect(asked).toBe(2);
    expect(await readFile(log, 'utf8')).toBe(HEADER + ROW);
    vi.restoreAllMocks();
  });
});

describe('the file itself', () => {
  test('what was in it stays byte for byte', async () => {
    const before = Buffer.from(`\uFEFF${HEADER.replaceAll(',', ';')}\r\n`);
    const log = await newLog();
    await writeFile(log, before);
    await append(log, 'x');
    expect(await readFile(log)).toEqual(Buffer.concat([before, Buffer.from('x')]));
  });

  test.skipIf(process.platform === 'win32').each(['600', '664', '644'])(
    'its permissions stay %s',
    async (mode) => {
      const log = await newLog(HEADER);
      await chmod(log, Number.parseInt(mode, 8));
      await append(log, ROW);
      expect(((await stat(log)).mode & 0o777).toString(8)).toBe(mode);
    },
  );

  test.skipIf(process.platform === 'win32')(
    'a link stays a link, and what it leads to gets the row',
    async () => {
      const log = await newLog();
      const folder = dirname(log);
      await mkdir(join(folder, 'elsewhere'));
      // A link to a link; first there is nothing behind them, then there is.
      await symlink(join('elsewhere', 'link.csv'), log);
      await symlink('log.csv', join(folder, 'elsewhere', 'link.csv'));
      await append(log, HEADER);
      await append(log, ROW);
      expect(await readlink(log)).toBe(join('elsewhere', 'link.csv'));
      expect(await readlink(join(folder, 'elsewhere', 'link.csv'))).toBe('log.csv');
      expect(await readFile(join(folder, 'elsewhere', 'log.csv'), 'utf8')).toBe(HEADER + ROW);
      expect((await readdir(join(folder, 'elsewhere'))).sort()).toEqual(['link.csv', 'log.csv']);
    },
  );

  test.skipIf(process.platform === 'win32')('links that lead round in a circle are refused', async () => {
    const log = await newLog();
    await symlink('other.csv', log);
    await symlink('season.csv', join(dirname(log), 'other.csv'));
    await expect(append(log, HEADER)).rejects.toThrow(/season\.csv: the file cannot be written \(ELOOP\)/);
    expect(await beside(log)).toEqual(['other.csv', 'season.csv']);
  });

  test.skipIf(process.getuid?.() === 0)('a file that is protected is not replaced', async () => {
    const log = await newLog(HEADER);
    await chmod(log, 0o444);
    await expect(append(log, ROW)).rejects.toThrow(/may not be written to/);
    expect(await readFile(log, 'utf8')).toBe(HEADER);
  });

  test('what killed programs left is removed, what may be in use is not', async () => {
    // No process has the number 2^22 or above on Linux; this one has its own, and runs.
    const left = ['.season.csv.4194999.00ab.part', `.season.csv.${process.pid}.00ab.part`];
    const log = await newLog();
    const folder = dirname(log);
    const fresh = `.season.csv.${process.pid}.00cd.part`;
    const strange = ['.season.csv.part', '.other.csv.4194999.00ab.part', 'season.csv.4194999.00ab.part'];
    for (const name of [...left, fresh, ...strange]) await writeFile(join(folder, name), 'half');
    await utimes(join(folder, left[1]!), new Date(), new Date(Date.now() - 61_000));
    await append(log, HEADER);
    expect((await beside(log)).sort()).toEqual([fresh, ...strange, 'season.csv'].sort());
  });
});
