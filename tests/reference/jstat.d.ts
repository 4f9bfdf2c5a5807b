/** Types of the functions of jstat that tests compare with; the package has none. */
declare module 'jstat' {
  interface Distribution {
    cdf(x: number, ...parameters: number[]): number;
    inv(probability: number, ...parameters: number[]): number;
    pdf(x: number, ...parameters: number[]): number;
  }
  export const jStat: {
    studentt: Distribution;
    noncentralt: Distribution;
    normal: Distribution;
    chisquare: Distribution;
    binomial: Distribution;
    gammaln(x: number): number;
    ibeta(x: number, a: number, b: number): number;
  };
  export default jStat;
}
