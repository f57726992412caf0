/**
 * What the README and the docs say is so: each command is run, each output compared, each scenario read.
 *
 * `UPDATE_DOCS=1 npx vitest run tests/cli/docs.test.ts` writes what the commands print now into the pages. Look at the
 * difference before you commit it.
 *
 * Blocks: `sh` and `js` are run, in the order of the page and in one folder for each page, with `scenarios` and `dist` in it; a
 * `text` right behind is what comes of it. A comment right above a block says what else holds:
 *
 *     not run: REASON               for what a test cannot do
 *     exit code 2                   0 if nothing is said
 *     file: NAME                    the block is written into a file of that name
 *     tested with A instead of B    B is replaced by A first; A alone is put into the environment; several with ;
 */

import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { keysTable } from '../../scripts/keys-table.mjs';
import { readScenario, STATES } from '../../sim/index.js';
import {
  anchorsOf,
  type Block,
  blocksOf,
  linksOf,
  marked,
  shownOf,
  spansOf,
  withTexts,
} from '../support/pages.js';
import { type Answer, evensow, evensowBoth, program } from './program.js';

const root = fileURLToPath(new URL('../../', import.meta.url));
const docs = readdirSync(`${root}docs`).filter((name) => name.endsWith('.md'));
const PAGES = ['README.md', ...docs.map((name) => `docs/${name}`)];
const textOf = (page: string): string => readFileSync(root + page, 'utf8');
const UPDATE = process.env['UPDATE_DOCS'] !== undefined;

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'evensow-docs-'));
});
afterAll(() => {
  rmSync(folder, { recursive: true });
});

/** A folder as a grower has it who works in the checkout. */
function workplace(page: string): string {
  const place = join(folder, page.replaceAll('/', '-'));
  mkdirSync(join(place, 'node_modules'), { recursive: true });
  for (const name of ['scenarios', 'dist']) symlinkSync(root + name, join(place, name));
  symlinkSync(root, join(place, 'node_modules', 'evensow'));
  return place;
}

interface Script {
  readonly text: string;
  readonly env: Readonly<Record<string, string>>;
}

/** What is to be run of a block; null if nothing is. */
function scriptOf(block: Block): Script | null {
  let text = block.language === 'sh' ? block.text : commandOfJob(block);
  if (text === null) return null;
  const env: Record<string, string> = {};
  for (const change of (marked(block, 'tested with') ?? '').split('; ')) {
    const [by, what] = change.split(' instead of ');
    if (what !== undefined) {
      expect(text).toContain(what);
      text = text.replaceAll(what, by!);
    } else if (by!.includes('=')) env[by!.split('=')[0]!] = by!.split('=')[1]!;
  }
  return { text, env };
}

/** The shell command of a Kubernetes Job; null if the block is none. */
function commandOfJob({ language, text }: Block): string | null {
  if (language !== 'yaml') return null;
  const job = parse(text);
  return job?.kind === 'Job' ? job.spec.template.spec.containers[0].args[0] : null;
}

const SHELL = 'exec 2>&1\nevensow() { node dist/evensow.js "$@"; }\n';
type Printed = Pick<Answer, 'code' | 'out'>;

/** A command of ours with nothing in it for a shell to do but to leave a comment out. */
const OURS = /^evensow((?: [\w./,=+:-]+)*)(?: +#.*)?$/;
/** A command that leaves nothing behind but files, so that the next one can be run by another process. */
const OF_FILES = /^(evensow|cat|cmp|cp|head|rm|sed) [^\\]*$/;

/** Run a script line by line where that is the same, our commands without starting the program for each. */
async function ran({ text, env }: Script, cwd: string): Promise<Printed> {
  const lines = text.split('\n').filter((line) => line !== '');
  if (!lines.every((line) => OF_FILES.test(line))) return await inShell({ text, env }, cwd);
  let printed = '';
  for (const line of lines) {
    const words = OURS.exec(line)?.[1];
    const { code, out } = await (words === undefined
      ? inShell({ text: line, env }, cwd)
      : evensowBoth(words.split(' ').slice(1), { cwd }));
    printed += out;
    if (code !== 0) return { code, out: printed };
  }
  return { code: 0, out: printed };
}

async function inShell({ text, env }: Script, cwd: string): Promise<Printed> {
  return await program('sh', ['-e', '-c', SHELL + text], { cwd, env });
}

describe('what a page shows is what happens', () => {
  test.each(PAGES)('%s', async (page) => {
    const text = textOf(page);
    const place = workplace(page);
    const update = new Map<Block, string>();
    let printed: string | null = null;
    for (const block of blocksOf(text)) {
      const where = `${page}, line ${block.line}`;
      const before = block.follows ? printed : null;
      printed = null;
      if (marked(block, 'not run:')) continue;
      const file = marked(block, 'file:');
      if (file) writeFileSync(join(place, file), `${block.text}\n`);
      const script = scriptOf(block);
      if (script !== null) {
        const { code, out } = await ran(script, place);
        expect(code, `${where}:\n${out}`).toBe(Number(marked(block, 'exit code') ?? 0));
        printed = out;
      } else if (block.language === 'js') {
        writeFileSync(join(place, 'example.mjs'), block.text);
        const { code, out, err } = await program(process.execPath, ['example.mjs'], { cwd: place });
        expect(code, `${where}:\n${err}`).toBe(0);
        printed = out;
      } else if (block.language === 'text') {
        expect(before, `${where}: nothing was run right before that could have printed this`).not.toBeNull();
        const now = shownOf(before!, block.text);
        if (UPDATE && now !== block.text) update.set(block, now);
        else expect(block.text, where).toBe(now);
      } else {
        expect(block.language, `${where}: neither run nor marked`).toBe('yaml');
        expect(readScenario(block.text), where).toMatchObject({ ok: true, value: { warnings: [] } });
      }
    }
    if (update.size > 0) writeFileSync(root + page, withTexts(text, update));
  });
});

describe.each(PAGES)('%s', (page) => {
  const text = textOf(page);

  test('links to what is there', () => {
    for (const link of linksOf(text)) {
      if (/^https?:/.test(link)) continue;
      const [path, anchor] = link.split('#');
      const target = path === '' ? page : join(dirname(page), path!);
      expect(existsSync(root + target), link).toBe(true);
      if (anchor !== undefined) expect(anchorsOf(textOf(target)), link).toContain(anchor);
    }
  });

  test('names no file that is not there', () => {
    const named = [...text.matchAll(/\bscenarios\/[\w./-]+\w/g)].map(([path]) => path);
    const spans = spansOf(text).filter((span) => /^(sim|cli|tests|scripts|docs)\/[\w./-]+$/.test(span));
    for (const path of [...named, ...spans]) expect(existsSync(root + path), path).toBe(true);
  });

  test('lines of a scenario within its sentences can stand in one', () => {
    const base = parse(textOf('scenarios/home-shelf.yaml'));
    const [crop] = base.crops;
    for (const span of spansOf(text)) {
      const line = /^(visits|away|want|sow|cuts|regrow): ./.exec(span);
      if (line === null) continue;
      const keys = parse(span);
      const regrow = { cuts: 2, regrow: { days: 12, spread: 0.1 } };
      const scenario =
        line[1] === 'sow'
          ? { ...base, crops: [{ ...crop, ...keys }] }
          : line[1] === 'cuts' || line[1] === 'regrow'
            ? { ...base, crops: [{ ...crop, ...regrow, ...keys }] }
            : { ...base, ...(span === 'visits: always' ? { away: [] } : {}), ...keys };
      expect(readScenario(JSON.stringify(scenario)), span).toMatchObject({ ok: true });
    }
  });
});

test('commands and options within sentences are those of the program', async () => {
  const spans = PAGES.flatMap((page) => spansOf(textOf(page))).filter((span) => span.startsWith('evensow '));
  const commands = new Map<string, Set<string>>();
  for (const [, command, ...words] of spans.map((span) => span.split(/\s+/))) {
    if (!/^[a-z]/.test(command!)) continue;
    const options = words.filter((word) => /^--?[a-z]/.test(word)).map((word) => word.split('=')[0]!);
    commands.set(command!, new Set([...(commands.get(command!) ?? []), ...options]));
  }
  expect(commands.size).toBeGreaterThan(5);
  const helps = await Promise.all([...commands.keys()].map((command) => evensow(['help', command])));
  for (const [i, [command, options]] of [...commands].entries()) {
    const { code, out } = helps[i]!;
    expect(code, command).toBe(0);
    for (const option of options)
      expect(out, `${command} ${option}`).toMatch(new RegExp(`(^|\\s)${option}[ ,]`, 'm'));
  }
});

describe('the README', () => {
  const readme = textOf('README.md');

  test('is read in one go: 120 lines at most', () => {
    expect(readme.trimEnd().split('\n').length).toBeLessThanOrEqual(120);
  });

  test('has a table of all commands', async () => {
    const { out } = await evensow(['--help']);
    const listed = out.slice(out.indexOf('Commands:'));
    const commands = [...listed.matchAll(/^ {2}(\w+) /gm)].map(([, command]) => command!);
    const told = [...readme.matchAll(/^\| `evensow (\w+)/gm)].map(([, command]) => command!);
    expect(told.toSorted()).toEqual(commands.filter((command) => command !== 'help').toSorted());
  });
});

test('the table of keys is that of the schema (else: npm run docs)', () => {
  const [, written] = /<!-- keys:.*? -->\n([\s\S]*?)<!-- \/keys -->/.exec(textOf('docs/keys.md'))!;
  expect(written).toBe(keysTable());
});

test('the sources name every source that code and tests cite', () => {
  const rows = textOf('docs/sources.md').split('\n');
  const missing: string[] = [];
  let cited = 0;
  for (const folder of ['sim', 'cli', 'tests']) {
    for (const file of readdirSync(root + folder, { recursive: true, encoding: 'utf8' })) {
      if (!/\.tsx?$/.test(file)) continue;
      // A comment may go on in the next line.
      const text = textOf(`${folder}/${file}`).replaceAll(/\n *(\*|\/\/) ?/g, ' ');
      for (const { names, year } of citationsIn(text)) {
        cited++;
        const told = rows.some((row) => row.includes(year) && names.some((name) => row.includes(name)));
        if (!told) missing.push(`${folder}/${file}: ${names.join(' ')} ${year}`);
      }
    }
  }
  expect(cited).toBeGreaterThan(30);
  expect(missing).toEqual([]);
});

/** Years of publication right behind a name, an initial or `et al.`, with the names before them. */
function citationsIn(text: string): { names: string[]; year: string }[] {
  return [...text.matchAll(/(?:\p{Lu}\p{L}+|\p{Lu}\.|\bal\.),? \(?((?:18|19|20)\d\d)\b(?!-)/gu)].flatMap(
    (found) => {
      const [whole, year] = found;
      const before = text.slice(Math.max(0, found.index - 60), found.index + whole.length);
      const names = before.match(/\p{Lu}\p{L}{2,}/gu) ?? [];
      // Dates of seasons lie in years to come.
      return Number(year) > 2025 ? [] : [{ names, year: year! }];
    },
  );
}

test('the table of states names every state', () => {
  const page = textOf('docs/reading-the-answer.md');
  for (const state of STATES) expect(page).toContain(`| \`${state}\` |`);
});

test('the contents name every page', () => {
  const contents = linksOf(textOf('docs/README.md'));
  for (const name of docs) if (name !== 'README.md') expect(contents).toContain(name);
});

test('each example tells an editor where the schema is, as seen from where the README copies it to', () => {
  const examples = readdirSync(`${root}scenarios`).filter((name) => name.endsWith('.yaml'));
  expect(examples.length).toBeGreaterThan(0);
  for (const name of examples) {
    const [first] = textOf(`scenarios/${name}`).split('\n');
    const path = /^# yaml-language-server: \$schema=(.+)$/.exec(first!)![1]!;
    expect(JSON.parse(readFileSync(root + path, 'utf8')).title, name).toBe('Scenario of a growing line');
  }
});

test('a comment names no file that is not there', () => {
  const files = readdirSync(root, { recursive: true, encoding: 'utf8' }).filter(
    (file) => /^(sim|cli|scripts)\/.*\.(ts|tsx|mjs)$/.test(file) || /^tests\/.*\.tsx?$/.test(file),
  );
  const named = files.flatMap((file) =>
    textOf(file)
      .split('\n')
      .filter((line) => /^\s*(\/?\*|\/\/)/.test(line))
      .flatMap((line) =>
        [...line.matchAll(/(?<![\w.])[\w-]+(?:\/[\w-]+)*\.tsx?\b/g)].map(([name]) => `${file}: ${name}`),
      ),
  );
  const there = (name: string): boolean => files.some((file) => file === name || file.endsWith(`/${name}`));
  expect(named.length).toBeGreaterThan(50);
  expect(named.filter((name) => !there(name.split(': ')[1]!))).toEqual([]);
});
