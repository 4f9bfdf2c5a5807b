/** Whether probes in the same still water agree as well as what is known of them says. */

/**
 * Birge's ratio, at least 1: by how much the scatter of some values exceeds what their uncertainties allow, √(Σ((x − x̄)/u)²/(n − 1));
 * for two values apart by D it is |D|/(√2·u). The uncertainty of their mean times it covers a value that is off by more than was
 * declared (R. T. Birge, Phys. Rev. 40 (1932) 207, from memory).
 * @param u standard uncertainties, each above zero
 */
export function birgeRatio(values: readonly number[], u: readonly number[]): number {
  if (values.length < 2) return 1;
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value, at) => sum + ((value - mean) / u[at]!) ** 2, 0);
  return Math.max(1, Math.sqrt(squares / (values.length - 1)));
}
