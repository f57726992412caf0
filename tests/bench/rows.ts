/** What the benchmark prints: a row a figure. */

export interface Row {
  what: string;
  measured: string;
  target: string;
  /** null: nothing was demanded, or it could not be measured. */
  met: boolean | null;
}

export function median(values: readonly number[]): number {
  return quantile(values, 0.5);
}

/** The value that a share `p` of the values does not exceed. */
export function quantile(values: readonly number[], p: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))]!;
}
