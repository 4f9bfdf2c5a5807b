/** Tests whether probes in the same still water agree within their uncertainties. */

/**
 * Returns Birge's ratio, at least 1: the factor by which the scatter of some values exceeds what their uncertainties
 * allow, √(Σ((x − x̄)/u)²/(n − 1)); for two values with a difference D it is |D|/(√2·u). The uncertainty of their mean,
 * multiplied by it, covers a value whose error is larger than declared (R. T. Birge, Phys. Rev. 40 (1932) 207,
 * from memory).
 * @param u standard uncertainties, each above zero
 */
export function birgeRatio(values: readonly number[], u: readonly number[]): number {
  if (values.length < 2) return 1;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value, at) => sum + ((value - mean) / u[at]!) ** 2, 0);
  return Math.max(1, Math.sqrt(squares / (values.length - 1)));
}
