/**
 * How the conductivity of the tank drifts, as long as a forecast is worth anything.
 *
 * Salts are balanced, taken as proportional to conductivity: plants take up water with some conductivity, and what is topped up
 * has another. Once the water has left the band around its own conductivity, plants no longer take up what they did, and the
 * forecast ends.
 */

/** What uptake may be where it is not told [mS/cm]: lettuce about 1.8, derived from its uptake of ions; and half of that either way. */
const UPTAKES_UNTOLD = [1.2, 1.8, 2.7] as const;
/** The band, as shares of the conductivity of a new filling. */
const BAND = { least: 0.7, most: 1.3 } as const;

/** Conductivity before topping up [mS/cm]. @param fullL level after the last topping up [L] @param usedL since then [L] */
export function ecBefore(fullL: number, ec: number, uptakeEc: number, usedL: number): number {
  return (fullL * ec - uptakeEc * usedL) / (fullL - usedL);
}

/** Conductivity after topping up what was used [mS/cm]. @param before conductivity before it */
export function ecAfter(fullL: number, before: number, topUpEc: number, usedL: number): number {
  return (before * (fullL - usedL) + topUpEc * usedL) / fullL;
}

/** The forecast of one season, from visit to visit. */
export class EcForecast {
  readonly #fullL: number;
  readonly #ec: number;
  readonly #topUpEc: number;
  readonly #uptakes: readonly number[];
  /** Conductivity after the last visit, by uptake. */
  readonly #now: number[];
  /** The day on which it ended; null while it goes on. */
  endedOn: number | null = null;

  /** @param uptakeEc null: the one of three that ends the forecast first */
  constructor(fullL: number, ec: number, topUpEc: number, uptakeEc: number | null) {
    this.#fullL = fullL;
    this.#ec = ec;
    this.#topUpEc = topUpEc;
    this.#uptakes = uptakeEc === null ? UPTAKES_UNTOLD : [uptakeEc];
    this.#now = this.#uptakes.map(() => ec);
  }

  /** A visit tops up, or fills anew. @param day of it [d] @param usedL since the visit before [L] */
  visit(day: number, usedL: number, filledAnew: boolean): void {
    for (let i = 0; i < this.#now.length && this.endedOn === null; i++) {
      const before =
        usedL < this.#fullL ? ecBefore(this.#fullL, this.#now[i]!, this.#uptakes[i]!, usedL) : Number.NaN;
      const after = filledAnew ? this.#ec : ecAfter(this.#fullL, before, this.#topUpEc, usedL);
      if (!(this.#isGood(before) && this.#isGood(after))) this.endedOn = day;
      this.#now[i] = after;
    }
  }

  #isGood(ec: number): boolean {
    return ec >= BAND.least * this.#ec && ec <= BAND.most * this.#ec;
  }
}
