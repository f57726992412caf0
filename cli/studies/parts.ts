/**
 * Parts of a study that were carried out apart: how they are written, read and told to belong together.
 *
 * A part is a JSON document: which part of how many it is, by which arguments it was asked for, what was asked, and what its
 * seasons gave. At its end stands the SHA-256 sum of all before it, by which a part that was changed is known: what its data
 * mean is worked out only by those who made them.
 */

import { createHash } from 'node:crypto';
import * as z from 'zod';
import packageJson from '../../package.json' with { type: 'json' };
import type { Shard } from '../../sim/study/study.js';
import { MOST_SHARDS } from '../options/options.js';
import { plainJson } from '../render/obeyed.js';
import { firstOf } from '../words/numbers.js';
import { inShell } from '../words/shell.js';
import type { Assignment } from './assignment.js';
import { assignment } from './assignment-form.js';

/** Form of the document; raised when a part could no longer be read. */
const FORM = 4;

export interface Part {
  /** Name of the file, for messages. */
  readonly name: string;
  readonly version: string;
  /** The arguments by which it was asked for. */
  readonly typed: readonly string[];
  readonly asked: Assignment;
  readonly shard: Shard;
  readonly data: unknown;
}

/** A file that is no part that can be joined. */
export interface Spoilt {
  readonly name: string;
  /** What is wrong with it and what to do, in sentences. */
  readonly fault: string;
  /** Which part it was; null if that cannot be told. */
  readonly shard: Shard | null;
}

const document = z.object({
  evensow_part: z.literal(FORM),
  version: z.string(),
  shard: z.object({ k: z.int().min(1), n: z.int().min(1).max(MOST_SHARDS) }),
  typed: z.array(z.string()),
  asked: assignment,
  data: z.unknown(),
});

/** How a part begins, also one that ends too early: its form, version, number and the arguments it was asked for by. */
const HEAD =
  /^\{"evensow_part":(\d+)(?:,"version":"([^"]*)"(?:,"shard":\{"k":(\d+),"n":(\d+)\}(?:,"typed":(\[(?:"(?:[^"\\]|\\.)*",?)*\]))?)?)?/;

export function partText(typed: readonly string[], asked: Assignment, shard: Shard, data: unknown): string {
  const whole = plainJson(
    JSON.stringify({ evensow_part: FORM, version: packageJson.version, shard, typed, asked, data }),
  );
  const text = whole.slice(0, -1);
  return `${text},"sha256":"${sumOf(text)}"}\n`;
}

const SUM = /,"sha256":"([0-9a-f]{64})"\}\s*$/;

function sumOf(text: string): string {
  return createHash('sha256').update(text).digest('hex');
}

export function readPart(name: string, text: string): Part | Spoilt {
  const value = parsed(text);
  const sum = SUM.exec(text);
  const whole = sum !== null && sumOf(text.slice(0, sum.index)) === sum[1];
  const read = document.safeParse(value);
  if (!read.success || !whole) return spoilt(name, text, value === null);
  const { version, shard, typed, asked, data } = read.data;
  return { name, version, typed, shard, asked, data };
}

/** @returns null if it is no JSON */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

/** @param cut true if the text is not even a whole document */
function spoilt(name: string, text: string, cut: boolean): Spoilt {
  const [head, form, version, k, n, typed] = HEAD.exec(text) ?? [];
  if (head === undefined) {
    const fault = `${name}: this is no part of a study. A part is the file that a study writes with --shard, whole and unchanged. Example: evensow run FILE --shard 2/4 --out part-2.json`;
    return { name, fault, shard: null };
  }
  const shard = k === undefined ? null : { k: Number(k), n: Number(n) };
  const which = shard === null ? '' : `, part ${shard.k} of ${shard.n},`;
  const what =
    Number(form) !== FORM || (!cut && version !== packageJson.version)
      ? `was written by evensow ${version ?? 'of another version'}, whose parts evensow ${packageJson.version} cannot join. All parts must be of one version.`
      : cut
        ? 'is cut short: its end is missing, as after a copy that broke off or on a full disk.'
        : 'is not as it was written.';
  const words = parsed(typed ?? '') as string[] | null;
  const again =
    shard === null || words === null
      ? 'Carry out that part again.'
      : againText({ typed: words, shard }, name);
  return { name, fault: `${name}${which} ${what} ${again}`, shard };
}

/** The sentence on a part that cannot have been written as it is. @param why in a few words */
export function damageText(part: Part, why: string): string {
  const { name, shard } = part;
  return `${name}, part ${shard.k} of ${shard.n}, is damaged (${why}). ${againText(part, name)}`;
}

/** The command that makes a part again. @param out file that it goes to */
export function againText({ typed, shard: { k, n } }: Pick<Part, 'typed' | 'shard'>, out: string): string {
  const rest = typed.filter(
    (word, i) =>
      !/^(--shard|--out|-o)/.test(word) && !['--shard', '--out', '-o'].includes(typed[i - 1] ?? ''),
  );
  const command = ['evensow', ...rest, '--shard', `${k}/${n}`, '--out', out].map(inShell).join(' ');
  return `Make it again: ${command}`;
}

/**
 * What keeps the files from being one study.
 * @param read at least one
 * @returns sentences for each fault; none if the parts are all there, once each, of the same study
 */
export function faultsOf(read: readonly (Part | Spoilt)[]): string[] {
  const faults = read.flatMap((one) => ('fault' in one ? [one.fault] : []));
  const parts = read.filter((one) => 'data' in one);
  // Parts of this version are kept, if there are any: others of it can be made.
  const first = parts.find(({ version }) => version === packageJson.version) ?? parts[0];
  if (first === undefined) return faults;
  const { n } = first.shard;
  const toldOf = new Set(read.flatMap((one) => ('fault' in one && one.shard?.n === n ? [one.shard.k] : [])));
  const byNumber = new Map<number, string>();
  for (const part of parts) {
    const { name, shard, version } = part;
    const fault = misfit(first, part);
    const before = byNumber.get(shard.k);
    if (fault !== null) faults.push(fault);
    else if (version !== first.version) {
      faults.push(
        `${name}, part ${shard.k} of ${n}, was made by evensow ${version}, ${first.name} by ${first.version}. All parts must be of one version. ${againText(part, name)}`,
      );
      toldOf.add(shard.k);
    } else if (before !== undefined) {
      faults.push(
        `Part ${shard.k} of ${n} is there twice: ${before} and ${name}. Each part counts once: leave one out.`,
      );
    } else byNumber.set(shard.k, name);
  }
  const missing = Array.from({ length: n }, (_, i) => i + 1).filter(
    (k) => !byNumber.has(k) && !toldOf.has(k),
  );
  if (missing.length > 0) {
    faults.push(
      `${missing.length === 1 ? 'Part' : 'Parts'} ${firstOf(missing.map(String), MOST_TOLD)} of ${n} ${missing.length === 1 ? 'is' : 'are'} missing. A study is joined from all of its parts.`,
      ...missing
        .slice(0, MOST_TOLD)
        .map((k) =>
          againText({ typed: first.typed, shard: { k, n } }, fileOf(first, k)).replace(' again', ''),
        ),
    );
  }
  return faults;
}

/** The file of another part of the study: named like this one, with its own number. */
function fileOf({ name, shard }: Part, k: number): string {
  const like = name.replace(new RegExp(`(?<!\\d)${shard.k}(?!\\d)(?=[^/\\\\\\d]*$)`), String(k));
  return like === name ? `part-${k}.json` : like;
}

/** Missing parts of which each is told. */
const MOST_TOLD = 12;

function misfit(first: Part, part: Part): string | null {
  const other = (what: string): string =>
    `${part.name} is a part of another study than ${first.name}: ${what}. Join parts that were carried out with the same scenario and the same options.`;
  if (part.shard.n !== first.shard.n)
    return other(`it is one of ${part.shard.n} parts, not of ${first.shard.n}`);
  const { sources, ...options } = part.asked;
  const { sources: firstSources, ...firstOptions } = first.asked;
  const texts = (all: typeof sources): string => JSON.stringify(all.map(({ text }) => text));
  if (texts(sources) !== texts(firstSources)) return other('the scenario is not the same');
  for (const key of new Set([...Object.keys(options), ...Object.keys(firstOptions)])) {
    const [ours, theirs] = [options, firstOptions].map((all) =>
      JSON.stringify((all as Record<string, unknown>)[key]),
    );
    if (ours !== theirs) return other(`${key} is ${ours}, not ${theirs}`);
  }
  return null;
}
