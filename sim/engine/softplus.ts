/** The function ln(1 + e^x), its inverse and its integral, for any x without overflow. */

/** ln(1 + e^x), the integral of the logistic function. */
export function softplus(x: number): number {
  return x > 0 ? x + Math.log1p(Math.exp(-x)) : Math.log1p(Math.exp(x));
}

/** The x at which softplus is y: ln(e^y - 1). @param y above 0 */
export function inverseSoftplus(y: number): number {
  return y > 1 ? y + Math.log1p(-Math.exp(-y)) : Math.log(Math.expm1(y));
}

/** 1/(1 + e^-x), the slope of softplus. */
export function logistic(x: number): number {
  return x > 0 ? 1 / (1 + Math.exp(-x)) : 1 - 1 / (1 + Math.exp(x));
}

/**
 * The integral of softplus from -Infinity to x, to some 1e-15 of it. It is minus the dilogarithm of -e^x; beyond 0 by the
 * dilogarithm's inversion, so that the series below converges fast.
 */
export function softplusIntegral(x: number): number {
  return x > 0 ? Math.PI ** 2 / 6 + (x * x) / 2 - ofSoftplus(softplus(-x)) : ofSoftplus(softplus(x));
}

/**
 * The integral of s/(1 - e^-s) from 0 to s: term by term B(n) s^(n+1)/(n+1)!, with the numbers of Bernoulli B(1) = 1/2, 1/6, 0, -1/30,
 * 0, 1/42, 0, -1/30, 0, 5/66, 0, -691/2730, 0, 7/6. @param s from 0 to ln 2
 */
function ofSoftplus(s: number): number {
  const q = s * s;
  return (
    s +
    q / 4 +
    s *
      q *
      (1 / 36 -
        q *
          (1 / 3600 -
            q *
              (1 / 211680 -
                q *
                  (1 / 10886400 -
                    q * (5 / 66 / 39916800 - q * (691 / 2730 / 6227020800 - (q * 7) / 6 / 1307674368000))))))
  );
}
