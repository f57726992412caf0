/** Warmth that was meant in Fahrenheit. */

/** No air for plants is warmer than this [degC]. */
export const FAHRENHEIT = 40;

/** @param value what was told as degC */
export function celsiusAdvice(value: number): string {
  return `Fahrenheit? Then write ${Number((((value - 32) * 5) / 9).toPrecision(3))}.`;
}
