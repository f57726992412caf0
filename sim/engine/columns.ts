/**
 * Columns of numbers that are made anew again and again, in memory that stays: large pieces that are let go of one after the other are given
 * back to the system late or never.
 */

interface Column<Numbers> {
  readonly BYTES_PER_ELEMENT: number;
  new (memory: ArrayBuffer, offset: number, length: number): Numbers;
}

export class Columns {
  readonly #pieces: ArrayBuffer[] = [];
  #next = 0;

  /** Those that were given out are not used any more: their memory serves for the next, in the same order. */
  reset(): void {
    this.#next = 0;
  }

  /** @returns `length` numbers: whatever stood there before, or zeros */
  make<Numbers>(Kind: Column<Numbers>, length: number): Numbers {
    const place = this.#next++;
    const bytes = length * Kind.BYTES_PER_ELEMENT;
    if ((this.#pieces[place]?.byteLength ?? -1) < bytes) this.#pieces[place] = new ArrayBuffer(bytes);
    return new Kind(this.#pieces[place]!, 0, length);
  }
}
