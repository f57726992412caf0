/**
 * The stages of a line, inferred from its log where no scenario is known.
 *
 * - The first stage is the one that `sow` rows name (the most frequent, should they differ). If they leave it empty:
 *   the stage most often named by `lose`, `clean` or `stand` rows that no plant was ever moved into and that is not
 *   merely a slip of one that was: it is no slip if it was written several times, or differs in its number only (S1, S2). If there is none, and nothing was ever moved, the stage that was picked from. Else
 *   it is called `sown`.
 * - From there on, the next stage is the one that most batches went into next; a batch's way is the order in which it
 *   was first moved into each stage, from where it stood if a `stand` row says so. The way ends with the stage that was picked from, or where no batch went on.
 *
 * So a slip in one row does not make a stage, unless it is the only row that tells.
 */

import { nearest } from '../../models/nearest.js';
import type { RowDraft } from './fields.js';

/** A line has no more stages than this; looking for more would only cost. */
const MOST_STAGES = 20;

/** A name that stands in so many rows is no slip. */
const NO_SLIP = 3;

/** What the first stage is called if the log does not say. */
export const UNNAMED_STAGE = 'sown';

/** @returns names of the stages in their order, at least one */
export function inferStages(rows: readonly Pick<RowDraft, 'action' | 'batch' | 'stage'>[]): string[] {
  const named = {
    sow: new Votes(),
    move: new Votes(),
    pick: new Votes(),
    lose: new Votes(),
    clean: new Votes(),
    stand: new Votes(),
  };
  const ways = new Map<string, string[]>();
  /** Where batches stood of which the log does not tell the beginning. */
  const stood = new Map<string, Set<string>>();
  for (const { action, batch, stage } of rows) {
    if (action === null || stage === '') continue;
    named[action].add(stage);
    if (action === 'stand') stood.set(batch, (stood.get(batch) ?? new Set()).add(stage));
    if (action !== 'move') continue;
    const way = ways.get(batch);
    if (way === undefined) ways.set(batch, [stage]);
    else if (way.length < MOST_STAGES && !way.includes(stage)) way.push(stage);
  }
  const movedInto = named.move.most(MOST_STAGES);
  const elsewhere = (stage: string, count: number): boolean =>
    !movedInto.includes(stage) &&
    (count >= NO_SLIP ||
      movedInto.some((into) => numbered(into, stage)) ||
      nearest(stage, movedInto) === null);
  const first =
    named.sow.winner() ??
    named.lose.winner(elsewhere) ??
    named.clean.winner(elsewhere) ??
    named.stand.winner(elsewhere) ??
    (movedInto.length === 0 ? named.pick.winner() : null) ??
    UNNAMED_STAGE;
  return wayFrom(first, ways, stood, named.pick.winner());
}

/** Whether two names differ in their numbers only. */
function numbered(one: string, other: string): boolean {
  const bare = (name: string): string => name.replaceAll(/\d+/g, '#');
  return one !== other && bare(one) === bare(other);
}

function wayFrom(
  first: string,
  ways: ReadonlyMap<string, readonly string[]>,
  stood: ReadonlyMap<string, ReadonlySet<string>>,
  last: string | null,
): string[] {
  const next = new Map<string, Votes>();
  for (const [batch, way] of ways) {
    const [start = first, ...more] = stood.get(batch) ?? [];
    // From several stages at once nobody can tell which way its plants went.
    if (more.length > 0) continue;
    let from = start;
    for (const into of way) {
      const votes = next.get(from) ?? new Votes();
      next.set(from, votes);
      votes.add(into);
      from = into;
    }
  }
  const stages = [first];
  for (let stage = first; stage !== last && stages.length < MOST_STAGES; ) {
    const into = next.get(stage)?.winner((name) => !stages.includes(name)) ?? null;
    if (into === null) break;
    stages.push(into);
    stage = into;
  }
  return stages;
}

/** How often each name was heard. */
class Votes {
  readonly #counts = new Map<string, number>();

  add(name: string): void {
    this.#counts.set(name, (this.#counts.get(name) ?? 0) + 1);
  }

  /** The most frequent names. */
  most(number: number): string[] {
    const names = [...this.#counts].sort(([, a], [, b]) => b - a);
    return names.slice(0, number).map(([name]) => name);
  }

  /** The most frequent name (the earliest of equals) that may be taken; null if there is none. */
  winner(may: (name: string, count: number) => boolean = () => true): string | null {
    let best: string | null = null;
    let most = 0;
    for (const [name, count] of this.#counts) {
      if (count > most && may(name, count)) {
        best = name;
        most = count;
      }
    }
    return best;
  }
}
