/** Completion: what the program answers to the scripts, and, in those shells that are there, what a press of Tab brings. */

import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { symlink, writeFile } from 'node:fs/promises';
import { delimiter, join } from 'node:path';
import { spawn } from '@lydell/node-pty';
import xterm from '@xterm/headless';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { commands } from '../../cli/main.js';
import { chapters, plain, wordCalled } from '../../cli/words/glossary/glossary.js';
import { WEEKDAYS } from '../../sim/models/dates.js';
import { ACTIONS } from '../../sim/season/log/rows.js';
import { ORDERS } from '../../sim/study/compare.js';
import { COST_KINDS } from '../../sim/study/search/candidates.js';
import { ownFolder } from '../support/folder.js';
import { until } from '../support/patience.js';
import { BINARY, evensow } from './program.js';

const SHELLS = ['bash', 'zsh', 'fish'] as const;

/** What may stand where these words end, and the number that says what else holds. */
async function answers(...words: string[]): Promise<{ values: string[]; directive: string }> {
  const { code, out, err } = await evensow(['complete', '--', ...words]);
  expect({ code, err }).toEqual({ code: 0, err: '' });
  const lines = out.trimEnd().split('\n');
  return { values: lines.slice(0, -1).map((line) => line.split('\t')[0]!), directive: lines.at(-1)! };
}

const NO_FILES = ':4';
const FILES = ':0';

describe('what may be typed', () => {
  const program = commands(() => {}, []);
  const visible = (name: string) =>
    program.createHelp().visibleOptions(program.commands.find((one) => one.name() === name)!);

  test('are all commands, or a file', async () => {
    const { values, directive } = await answers('');
    expect(values).toEqual([...program.commands.map((command) => command.name()), 'help']);
    expect(directive).toBe(FILES);
  });

  test.each(program.commands.map((command) => command.name()))(
    'behind %s are all of its options',
    async (name) => {
      const { values } = await answers(name, '--');
      expect(values.toSorted()).toEqual(
        visible(name)
          .map(({ long }) => long!)
          .toSorted(),
      );
      expect((await answers(name, '-')).values).toEqual(values);
    },
  );

  test('without a command are the options of run too', async () => {
    const { values } = await answers('--');
    expect(values).toEqual(expect.arrayContaining(['--version', '--seasons', '--json', '--out']));
  });

  test.each([
    [['compare', '--by'], ORDERS],
    [['search', '--least'], COST_KINDS],
    [['search', '--every', '2,3', '--least'], COST_KINDS],
    [['compare', '--on'], WEEKDAYS],
    [['replay', '--on'], WEEKDAYS],
    [
      ['compare', '--visits'],
      ['daily', 'always', ...WEEKDAYS],
    ],
    [
      ['search', '--visits'],
      ['daily', ...WEEKDAYS],
    ],
    [['log'], ACTIONS],
    [['log', '--to', 'season.csv'], ACTIONS],
    [['completion'], SHELLS],
    [['ahead', 'line.yaml', '--today'], ['now']],
  ])('behind %j are the words that are taken there', async (words, expected) => {
    expect((await answers(...words, '')).values).toEqual(expected);
  });

  test('each word that is offered for an option is taken', async () => {
    for (const [option, words] of [
      ['--by', ORDERS],
      ['--on', WEEKDAYS],
      ['--visits', (await answers('compare', '--visits', '')).values],
    ] as const) {
      for (const word of words) {
        // A wrong shard is told with every other fault, before anything is run.
        const { err } = await evensow(['compare', option, word, '--shard', 'x']);
        expect(err).toMatch(/^evensow: --shard must not be "x"\./);
      }
    }
  });

  test('a value behind = is completed like one behind a space', async () => {
    expect((await answers('compare', '--by=us')).values).toEqual(['usual_week']);
    expect((await answers('compare', '--every=2,3', '--by', 'us')).values).toEqual(['usual_week']);
  });

  test('weekdays are joined: those that stand there already are not offered again', async () => {
    const { values, directive } = await answers('compare', '--on', 'mon+t');
    expect(values).toEqual(['mon+tue', 'mon+thu']);
    expect(directive).toBe(':6');
    expect((await answers('compare', '--on', 'mon+thu,m')).values).toEqual(['mon+thu,mon']);
    expect((await answers('compare', '--visits', 'daily,mon+s')).values).toEqual([
      'daily,mon+sat',
      'daily,mon+sun',
    ]);
  });

  test.each([
    [['run', '']],
    [['compare', 'a.yaml', '']],
    [['compare', 'a.yaml', 'b.ya']],
    [['my-li']],
    [['run', '--out', '']],
    [['--out', '']],
    [['run', '--out=res']],
    [['log', '--line', '']],
    [['fit', 'season.csv', '--write', '']],
    [['merge', '']],
    [['watch', 'a.yaml', '']],
  ])('%j goes on with a file', async (words) => {
    expect(await answers(...words)).toEqual({ values: [], directive: FILES });
  });

  test.each([
    [['schema', '']],
    [['run', '--seasons', '']],
    [['compare', '--every', '']],
    [['log', 'sow', '']],
  ])('%j goes on with what only the grower knows', async (words) => {
    expect(await answers(...words)).toEqual({ values: [], directive: NO_FILES });
  });

  test('behind help are commands and words, word by word', async () => {
    expect((await answers('help', '')).values).toEqual(expect.arrayContaining(['compare', 'bad', 'blocked']));
    expect((await answers('help', 'bad', '')).values).toEqual(['week']);
  });

  test('behind help are all that it explains, each once, and what another word is called too', async () => {
    const words = chapters()
      .flatMap((chapter) => chapter.words.flatMap(({ name, also = [] }) => [name, ...also]))
      .filter((word) => !word.includes("'"))
      .map((word) => (/[,:/]/.test(word) ? plain(word) : word));
    const names = program.commands.map((command) => command.name());
    const first = words.map((word) => word.split(' ')[0]!);
    const { values } = await answers('help', '');
    expect(values.toSorted()).toEqual([...new Set([...names, 'words', ...first])].toSorted());
    for (const said of ['ready', 'hole', 'light', 'empty']) {
      const behind = words.flatMap((word) => {
        const [begin, next] = word.split(' ');
        return begin === said && next !== undefined ? [next] : [];
      });
      expect(behind.length).toBeGreaterThan(0);
      expect((await answers('help', said, '')).values.toSorted()).toEqual([...new Set(behind)].toSorted());
    }
    // Typed to its end each is explained; none has a sign that a shell would take for its own.
    expect(words.filter((word) => wordCalled(word) === null)).toEqual([]);
    expect(words.filter((word) => !/^[\p{L}\p{N}%._ -]+$/u.test(word))).toEqual([]);
  });

  test('what is typed is data: nothing of it is run, and odd signs do no harm', async () => {
    for (const word of ['$(touch x)', '`touch x`', '\u001b[31m', '=', '--=', '--by=', '', '--', ':', '\t']) {
      expect((await answers('compare', word)).directive).toMatch(/^:\d$/);
      expect((await answers(word, '')).directive).toMatch(/^:\d$/);
    }
  });
});

describe('the command completion', () => {
  test('tells a wrong shell with the nearest, and a missing one', async () => {
    const wrong = await evensow(['completion', 'bsah']);
    expect(wrong).toMatchObject({ code: 2, out: '' });
    expect(wrong.err).toContain('must not be "bsah". It must be one of bash, zsh, fish. Did you mean bash?');
    const missing = await evensow(['completion']);
    expect(missing).toMatchObject({ code: 2, out: '' });
    expect(missing.err).toContain(
      'must be told the shell: bash, zsh, fish. Example: evensow completion bash',
    );
  });

  test('says in its help how to switch it on in each shell', async () => {
    const { out } = await evensow(['completion', '--help']);
    for (const shell of SHELLS) expect(out).toContain(`evensow completion ${shell}`);
  });

  test.each(SHELLS)('the script of %s asks the program for its answers', async (shell) => {
    const { code, out, err } = await evensow(['completion', shell]);
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('evensow complete -- ');
  });

  test('the script of bash runs nothing of what is typed', async () => {
    expect((await evensow(['completion', 'bash'])).out).not.toContain('eval');
  });
});

function isThere(shell: string): boolean {
  try {
    execFileSync(shell, ['-c', 'true'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}

/** How each shell begins without a word of anybody's own, and where the help says its script is to be put. */
const BEGIN: Readonly<Record<(typeof SHELLS)[number], { args: string[]; switchOn: string }>> = {
  bash: { args: ['--noprofile', '--norc', '-i'], switchOn: 'eval "$(evensow completion bash)"' },
  zsh: {
    args: ['-f', '-i'],
    switchOn: 'autoload -U compinit && compinit -D; eval "$(evensow completion zsh)"',
  },
  fish: { args: ['--no-config', '-i'], switchOn: 'evensow completion fish | source' },
};

/** What is typed, and what stands in the line after Tab. */
const COMPLETED: readonly (readonly [typed: string, completed: string])[] = [
  ['compar', 'compare'],
  ['compare --refi', 'compare --refill'],
  ['compare --by us', 'compare --by usual_week'],
  ['compare --by=us', 'compare --by=usual_week'],
  ['compare --on mon+we', 'compare --on mon+wed'],
  ['log mo', 'log move'],
  ['run cell', 'run cellar-line.yaml'],
  ['cell', 'cellar-line.yaml'],
  ['run 2027', 'run 2027-season.csv'],
  ['compare cellar-line.yaml 2027', 'compare cellar-line.yaml 2027-season.csv'],
  ['run --out cell', 'run --out cellar-line.yaml'],
  ['help bad w', 'help bad week'],
];

describe.each(SHELLS.filter(isThere))('a press of Tab in %s', (shell) => {
  const folder = ownFolder();
  const bin = ownFolder();
  let terminal: Terminal;

  beforeAll(async () => {
    await symlink(BINARY, join(bin, 'evensow'));
    await writeFile(join(folder, 'cellar-line.yaml'), '');
    await writeFile(join(folder, '2027-season.csv'), '');
    const { args, switchOn } = BEGIN[shell];
    terminal = new Terminal(shell, args, folder, bin);
    // Not before it is printed has the script been read: as it is typed, there is a quote in between.
    terminal.type(`${switchOn}; echo switched-"on"\r`);
    await terminal.shows('switched-on');
  });
  afterAll(() => terminal.close());

  test.each(COMPLETED)('makes of %j: %j', async (typed, completed) => {
    terminal.type(`evensow ${typed}\t`);
    await terminal.shows(`evensow ${completed}`);
    terminal.type(CLEAR_LINE);
    await terminal.showsNot('evensow');
  });

  test('runs nothing of what stands in the line', async () => {
    terminal.type('evensow run "$(touch made)" --js\t');
    await terminal.shows('--json');
    expect(existsSync(join(folder, 'made'))).toBe(false);
    terminal.type(CLEAR_LINE);
  });
});

/** Ctrl-U, Ctrl-L: nothing of the line stays, nor of the screen. */
const CLEAR_LINE = '\u0015\u000c';

/** A shell in a pseudo-terminal, with an emulated screen. */
class Terminal {
  readonly #screen = new xterm.Terminal({ cols: 100, rows: 30, allowProposedApi: true });
  readonly #pty;

  constructor(shell: string, args: string[], folder: string, bin: string) {
    this.#pty = spawn(shell, args, {
      cols: 100,
      rows: 30,
      cwd: folder,
      env: {
        PATH: `${bin}${delimiter}${process.env['PATH']}`,
        HOME: folder,
        LANG: 'C.UTF-8',
        TERM: 'xterm',
      },
    });
    this.#pty.onData((text) => this.#screen.write(text));
    // Some shells ask the terminal what it can do, and wait for its answer.
    this.#screen.onData((text) => this.#pty.write(text));
  }

  type(text: string): void {
    this.#pty.write(text);
  }

  async shows(text: string): Promise<void> {
    await until(
      () => this.#text().includes(text),
      JSON.stringify(text),
      () => this.#text(),
    );
  }

  async showsNot(text: string): Promise<void> {
    await until(
      () => !this.#text().includes(text),
      `no ${JSON.stringify(text)}`,
      () => this.#text(),
    );
  }

  close(): void {
    this.#pty.kill('SIGKILL');
  }

  #text(): string {
    const { active } = this.#screen.buffer;
    return Array.from({ length: 30 }, (_, y) =>
      active.getLine(active.viewportY + y)?.translateToString(true),
    ).join('\n');
  }
}
