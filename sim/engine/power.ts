/**
 * Powers that are the same to the last digit wherever the program runs.
 *
 * The language leaves it to each machine how close `**` comes, and releases of Node differ in its last digits; of the
 * functions that are used here it is the only one that does (squares, and powers of 2 and 10, are exact on all). So a power
 * with another exponent is made of the exponential and the logarithm.
 */

/**
 * x^y. Its relative error is some 1e-16 times the larger of 1 and |y ln x|.
 * @param x at least 0 @param y any number; x^0 is 1
 */
export function power(x: number, y: number): number {
  return y === 0 ? 1 : Math.exp(y * Math.log(x));
}
