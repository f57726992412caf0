/** What plants that were sown one after the other have in common: kept once for each such row of plants, as it may have a million. */

export class SownInTurn<Common> {
  /** Of each row the number of its first plant, ascending, and what all of it have in common. */
  readonly #firsts: number[] = [];
  readonly #common: Common[] = [];

  /** @param plant its number, greater than those before */
  add(plant: number, common: Common): void {
    if (this.#firsts.length > 0 && this.#common.at(-1) === common) return;
    this.#firsts.push(plant);
    this.#common.push(common);
  }

  /** @returns undefined if it is none of those that were added, but one before them */
  of(plant: number): Common | undefined {
    let before = -1;
    let beyond = this.#firsts.length;
    while (beyond - before > 1) {
      const middle = (before + beyond) >> 1;
      if (this.#firsts[middle]! <= plant) before = middle;
      else beyond = middle;
    }
    return this.#common[before];
  }

  /** What the rows have in common, each once, in the order of sowing. */
  all(): Common[] {
    return [...new Set(this.#common)];
  }
}
