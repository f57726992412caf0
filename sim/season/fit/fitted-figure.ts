/** A figure that a log tells, with its 95 % interval. */
export interface FittedFigure {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** Whether enough was seen for it. */
  readonly good: boolean;
}
