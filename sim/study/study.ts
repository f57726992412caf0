/**
 * A study: the seasons that it needs, and what is concluded from them.
 *
 * The two are apart so that the seasons can be run in parts, on several threads or machines: the parts are packed into
 * files, unpacked and joined, and concluded from as if nothing had been apart.
 */

import type { Crew } from '../seasons/crew.js';
import { gather, type Pause } from '../seasons/gather.js';
import { Gathered, type JobData } from '../seasons/gathered.js';
import { seasonsOf, shardRange, type Workload } from '../seasons/workload.js';

/** Part `k` of `n`, `k` from 1. */
export interface Shard {
  readonly k: number;
  readonly n: number;
}

export const WHOLE: Shard = { k: 1, n: 1 };

export interface Study<Yield, Result> {
  readonly workload: Workload;
  /** Run a part of the study. Stopped by `pause`, it gives what was done by then. */
  carryOut(crew: Crew, shard: Shard, pause?: Pause): Promise<Yield>;
  /** What was carried out as plain data, for a file. */
  pack(yielded: Yield): unknown;
  /** @param parts packed, of all shards of one study, in any order @throws if the data are damaged */
  unpack(parts: readonly unknown[]): Yield;
  /** @returns the result, as plain data; null if not even one season was run */
  conclude(yielded: Yield): Result | null;
}

/** A study that needs a fixed number of seasons. */
export function ofSeasons<Result>(
  workload: Workload,
  conclude: (gathered: Gathered) => Result | null,
): Study<Gathered, Result> {
  return {
    workload,
    carryOut: (crew, { k, n }, pause) =>
      gather(workload, {
        crew,
        range: shardRange(seasonsOf(workload), k, n),
        ...(pause === undefined ? {} : { pause }),
      }),
    pack: (gathered) => gathered.toData(),
    unpack: (parts) => {
      const all = new Gathered(workload);
      for (const part of parts) all.merge(new Gathered(workload, part as readonly JobData[]));
      return all;
    },
    conclude,
  };
}
