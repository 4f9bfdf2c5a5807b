/**
 * Arithmetic over columns: one number a draw. The same function gives the value (a column of one), the sensitivities (a row for each
 * input moved) and the Monte Carlo draws, so that the three can never disagree.
 */

/** Fills `out` from the columns of what it is made of, row by row. */
export type Compute = (out: Float64Array, columns: readonly Float64Array[]) => void;

/** A function of single numbers, applied to each row. Its arguments are the columns, in their order. */
export function each(compute: (...row: number[]) => number): Compute {
  switch (compute.length) {
    case 0:
      return (out) => {
        out.fill(compute());
      };
    case 1:
      return (out, [a]) => {
        for (let row = 0; row < out.length; row++) out[row] = compute(a![row]!);
      };
    case 2:
      return (out, [a, b]) => {
        for (let row = 0; row < out.length; row++) out[row] = compute(a![row]!, b![row]!);
      };
    case 3:
      return (out, [a, b, c]) => {
        for (let row = 0; row < out.length; row++) out[row] = compute(a![row]!, b![row]!, c![row]!);
      };
    case 4:
      return (out, [a, b, c, d]) => {
        for (let row = 0; row < out.length; row++) out[row] = compute(a![row]!, b![row]!, c![row]!, d![row]!);
      };
    default:
      return (out, columns) => {
        const values = new Array<number>(columns.length);
        for (let row = 0; row < out.length; row++) {
          for (let column = 0; column < columns.length; column++) values[column] = columns[column]![row]!;
          out[row] = compute(...values);
        }
      };
  }
}
