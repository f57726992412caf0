/** A whole look at what comes, taken on another thread: so whoever asks for it hears meanwhile who stops it. */

import type { MessagePort } from 'node:worker_threads';
import type { Plan } from '../../models/plan.js';
import type { Result } from '../../models/result.js';
import { startThreads } from '../../seasons/threads.js';
import type { LogFault } from '../log/faults.js';
import type { LogRow } from '../log/rows.js';
import { type AheadResult, lookAhead } from './ahead.js';
import { type ChoresResult, listChores } from './chores.js';
import type { LookOptions } from './coming-season.js';

/** What each look tells. */
export interface LookTold {
  readonly ahead: AheadResult;
  readonly chores: ChoresResult;
}

/** What is looked at. Plain data. */
export type LookAsked = {
  readonly plan: Plan;
  readonly rows: readonly LogRow[];
  readonly attended: Plan | null;
} & ({ readonly look: 'ahead'; readonly weeks: number } | { readonly look: 'chores'; readonly days: number });

/** What a thread is asked: plain data, but for the port. */
export interface LookErrand extends Pick<LookOptions, 'today' | 'futures' | 'seed'> {
  readonly kind: 'look';
  readonly asked: LookAsked;
  /** Further threads that it may start; 0: it runs all futures itself. */
  readonly threads: number;
  /** Is told how many more futures were run. */
  readonly port: MessagePort;
}

/** Take a look on this thread. @returns null if it was stopped */
export function lookTaken<Name extends keyof LookTold>(
  asked: LookAsked & { readonly look: Name },
  options: LookOptions,
): Promise<Result<LookTold[Name], LogFault> | null>;
export function lookTaken(asked: LookAsked, options: LookOptions) {
  const { plan, rows, attended } = asked;
  return asked.look === 'ahead'
    ? lookAhead(plan, rows, { ...options, attended, weeks: asked.weeks })
    : listChores(plan, rows, { ...options, attended, days: asked.days });
}

/** Do an errand on this thread. */
export async function lookFromHere({ asked, threads: count, port, ...options }: LookErrand) {
  const threads = count === 0 ? null : await startThreads(count);
  const pause = (runs: number): null => {
    port.postMessage(runs);
    return null;
  };
  try {
    return await lookTaken(asked, { ...options, pause, threads: async () => threads });
  } finally {
    port.close();
    await threads?.close();
  }
}
