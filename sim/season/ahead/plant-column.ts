/**
 * A whole number of each plant of a future, by the number of the plant: 0 until another is set.
 *
 * A future may have millions of plants, and one is watched after the other: so there is no object of each plant, and the memory of one
 * future serves for the next.
 */

type Numbers = Uint8Array | Int32Array;

export class PlantColumn<Column extends Numbers> {
  readonly #make: (plants: number) => Column;
  #numbers: Column;

  /** @param make gives a column of so many zeros */
  constructor(make: (plants: number) => Column) {
    this.#make = make;
    this.#numbers = make(0);
  }

  /** Another future begins. @param plants that stand in it already */
  reset(plants: number): void {
    this.#numbers.fill(0);
    this.#reach(plants);
  }

  get(plant: number): number {
    return this.#numbers[plant] ?? 0;
  }

  set(plant: number, value: number): void {
    this.#reach(plant + 1);
    this.#numbers[plant] = value;
  }

  /** Plants that there is memory for: those that are set, and perhaps some behind them. */
  get length(): number {
    return this.#numbers.length;
  }

  #reach(plants: number): void {
    const before = this.#numbers;
    if (plants <= before.length) return;
    this.#numbers = this.#make(Math.max(plants, Math.ceil(1.5 * before.length)));
    this.#numbers.set(before);
  }
}

/** Numbers from 0 to 255. */
export function smallNumbers(): PlantColumn<Uint8Array> {
  return new PlantColumn((plants) => new Uint8Array(plants));
}

/** Numbers up to 2^31 - 1. */
export function largeNumbers(): PlantColumn<Int32Array> {
  return new PlantColumn((plants) => new Int32Array(plants));
}

/** The picks that plants can still give: of those that stand, as it is told of them. */
export function picksLeftOf(column: PlantColumn<Uint8Array>, standing: Uint8Array | undefined): void {
  column.reset(standing?.length ?? 0);
  standing?.forEach((picks, plant) => {
    column.set(plant, picks);
  });
}
