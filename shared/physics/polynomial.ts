/** Value at `x` of the polynomial with `coefficients`, constant first (Horner's rule). */
export function polynomial(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 0; i--) sum = sum * x + coefficients[i]!;
  return sum;
}

/** Derivative at `x` of the polynomial with `coefficients`, constant first. */
export function polynomialSlope(coefficients: readonly number[], x: number): number {
  let sum = 0;
  for (let i = coefficients.length - 1; i >= 1; i--) sum = sum * x + i * coefficients[i]!;
  return sum;
}
