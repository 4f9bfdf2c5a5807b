/** A constant less a weighted sum of errors: what most measured quantities are. Flat, because draws ask for it a hundred thousand times. */
import type { Draw, Model } from './model.ts';

export interface Term {
  /** Place of the error in a draw. */
  readonly place: number;
  readonly weight: number;
}

/** constant + Σ weight × draw[place]. Most sums are of one to three terms, which need no loop. */
export function linear(constant: number, terms: readonly Term[]): (draw: Draw) => number {
  const [one, two, three] = terms;
  if (!one) return () => constant;
  if (!two) return (draw) => constant + one.weight * draw[one.place]!;
  if (!three) return (draw) => constant + one.weight * draw[one.place]! + two.weight * draw[two.place]!;
  if (terms.length === 3) {
    return (draw) =>
      constant + one.weight * draw[one.place]! + two.weight * draw[two.place]! + three.weight * draw[three.place]!;
  }
  const indices = Int32Array.from(terms, ({ place: index }) => index);
  const weights = Float64Array.from(terms, ({ weight }) => weight);
  return (draw) => {
    let total = constant;
    for (let term = 0; term < indices.length; term++) total += weights[term]! * draw[indices[term]!]!;
    return total;
  };
}

/** Standard uncertainty of such a sum of independent errors. */
export function rootSumSquares(terms: readonly Term[], model: Model): number {
  return Math.hypot(...terms.map(({ place: index, weight }) => weight * model.inputs[index]!.standardUncertainty));
}
