/**
 * `base` to a whole-number power by repeated squaring. Used instead of `Math.pow`, whose last bit differs between
 * engine versions: multiplication is exact IEEE 754 everywhere, so property tables built on it are reproducible.
 */
export function integerPower(base: number, exponent: number): number {
  let remaining = Math.abs(exponent);
  let square = base;
  let result = 1;
  while (remaining > 0) {
    if (remaining % 2 === 1) result *= square;
    square *= square;
    remaining = Math.floor(remaining / 2);
  }
  return exponent < 0 ? 1 / result : result;
}
