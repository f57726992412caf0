/**
 * A study: the seasons that it needs, and what is concluded from them.
 *
 * The two are apart so that the seasons can be run in parts, on several threads or machines: the parts are packed into
 * files, unpacked and joined, and concluded from as if nothing had been apart.
 */

import { gather, type Pause } from '../seasons/gather.js';
import type { WorkerPool } from '../seasons/worker-pool.js';
import { seasonsOf, shardRange, type Workload } from '../seasons/workload.js';
import type { WorkloadTallies } from '../seasons/workload-tallies.js';
import { joinedTallies, talliesFault } from './unpack.js';

/** Part `k` of `n`, `k` from 1. */
export interface Shard {
  readonly k: number;
  readonly n: number;
}

export const WHOLE: Shard = { k: 1, n: 1 };

export interface Study<Collected, Result> {
  readonly workload: Workload;
  /** Run a part of the study. Stopped by `pause`, it gives what was done by then. */
  carryOut(pool: WorkerPool, shard: Shard, pause?: Pause): Promise<Collected>;
  /** What was carried out as plain data, for a file. */
  pack(collected: Collected): unknown;
  /** @returns in a few words, what is wrong with data that no such shard has packed; null if nothing is */
  faultOf(part: unknown, shard: Shard): string | null;
  /** @param parts packed and without faults, of all shards of one study, in any order */
  unpack(parts: readonly unknown[]): Collected;
  /** @returns the result, as plain data; null if not even one season was run */
  conclude(collected: Collected): Result | null;
}

/** A study that needs a fixed number of seasons. */
export function ofSeasons<Result>(
  workload: Workload,
  conclude: (gathered: WorkloadTallies) => Result | null,
): Study<WorkloadTallies, Result> {
  return {
    workload,
    carryOut: (pool, { k, n }, pause) =>
      gather(workload, {
        pool,
        range: shardRange(seasonsOf(workload), k, n),
        ...(pause === undefined ? {} : { pause }),
      }),
    pack: (gathered) => gathered.toData(),
    faultOf: (part, { k, n }) => talliesFault(workload, part, shardRange(seasonsOf(workload), k, n)),
    unpack: (parts) => joinedTallies(workload, parts),
    conclude,
  };
}
