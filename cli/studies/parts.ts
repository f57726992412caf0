/**
 * Parts of a study that were carried out apart: how they are written, read and told to belong together.
 *
 * A part is a JSON document: what was asked, which part of how many it is, and what its seasons gave.
 */

import * as z from 'zod';
import packageJson from '../../package.json' with { type: 'json' };
import type { Shard } from '../../sim/study/study.js';
import { Problem } from '../problem.js';
import type { Assignment } from './assignment.js';

/** Form of the document; raised when a part could no longer be read. */
const FORM = 2;

export interface Part {
  /** Name of the file, for messages. */
  readonly name: string;
  readonly version: string;
  readonly asked: Assignment;
  readonly shard: Shard;
  readonly data: unknown;
}

const document = z.object({
  evensow_part: z.literal(FORM),
  version: z.string(),
  shard: z.object({ k: z.int().min(1), n: z.int().min(1) }),
  asked: z.looseObject({
    command: z.enum(['run', 'compare', 'size', 'search']),
    sources: z.array(z.object({ name: z.string(), text: z.string() })).min(1),
    seed: z.int().min(0),
  }),
  data: z.unknown(),
});

export function partText(asked: Assignment, shard: Shard, data: unknown): string {
  return `${JSON.stringify({ evensow_part: FORM, version: packageJson.version, shard, asked, data })}\n`;
}

/** @throws Problem if the text is no part */
export function readPart(name: string, text: string): Part {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    value = null;
  }
  const read = document.safeParse(value);
  if (!read.success) {
    throw new Problem(
      `${name}: this is no part of a study. A part is the file that a study writes with --shard, whole and unchanged. Carry out that part again: evensow run FILE --shard 2/4 --out part-2.json`,
    );
  }
  const { version, shard, asked, data } = read.data;
  return { name, version, shard, asked: asked as unknown as Assignment, data };
}

/**
 * What keeps the parts from being one study.
 * @param parts at least one
 * @returns a sentence for each fault; none if the parts are all there, once each, of the same study
 */
export function faultsOf(parts: readonly Part[]): string[] {
  const faults: string[] = [];
  const first = parts[0]!;
  const fitting = parts.filter((part) => {
    const fault = misfit(first, part);
    if (fault !== null) faults.push(fault);
    return fault === null;
  });
  const { n } = first.shard;
  const byNumber = new Map<number, string>();
  for (const { name, shard } of fitting) {
    const before = byNumber.get(shard.k);
    if (before !== undefined) {
      faults.push(
        `Part ${shard.k} of ${n} is there twice: ${before} and ${name}. Each part counts once: leave one out.`,
      );
    }
    byNumber.set(shard.k, name);
  }
  const missing = Array.from({ length: n }, (_, i) => i + 1).filter((k) => !byNumber.has(k));
  if (missing.length > 0) {
    faults.push(
      `${missing.length === 1 ? 'Part' : 'Parts'} ${listed(missing)} of ${n} ${missing.length === 1 ? 'is' : 'are'} missing. A study is joined from all of its parts: carry out what is missing, with the same options and --shard ${missing[0]}/${n}.`,
    );
  }
  return faults;
}

/** At most a dozen numbers, then how many more. */
function listed(numbers: readonly number[]): string {
  const few = numbers.slice(0, 12).join(', ');
  return numbers.length > 12 ? `${few} and ${numbers.length - 12} more` : few;
}

function misfit(first: Part, part: Part): string | null {
  const other = (what: string): string =>
    `${part.name} is a part of another study than ${first.name}: ${what}. Join parts that were carried out with the same scenario and the same options.`;
  if (part.version !== first.version)
    return other(`it was made by version ${part.version}, not ${first.version}`);
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
