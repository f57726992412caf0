/** What the tests use of the reference library jStat, which ships no types. */
declare module 'jstat' {
  interface Distribution {
    cdf(x: number, a: number, b: number): number;
    inv(p: number, a: number, b: number): number;
  }
  const library: {
    jStat: {
      normal: Distribution;
      gamma: Distribution;
      lognormal: Distribution;
      weibull: Distribution;
      gammaln(x: number): number;
      lowRegGamma(a: number, x: number): number;
    };
  };
  export default library;
}
