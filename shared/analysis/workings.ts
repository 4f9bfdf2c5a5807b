/** The workings of the results of a burn: each quantity on the paths taken, with the numbers in its formula. */

import { hasValue } from '../contract/has-value.ts';
import type { Result, WorkedQuantity } from '../contract/results.ts';
import { pathOf } from './engine/plan.ts';
import type { Method } from './methods/method.ts';
import type { BurnEvaluation } from './quantities/declare.ts';

/** @returns each quantity once, after its inputs; those that are only shown with a result at the end */
export function workingsOf(method: Method, burn: BurnEvaluation, results: readonly Result[]): WorkedQuantity[] {
  const published = results.filter(hasValue).map(({ id }) => ({ id, quantity: method.results[id]! }));
  const wanted = published.map(({ quantity }) => quantity);
  const shown = pathOf(burn, wanted)
    .flatMap(({ quantity: { alsoShown = [] } }) => alsoShown)
    .filter((quantity) => burn.quantity(quantity).missing === undefined);
  return pathOf(burn, [...wanted, ...shown]).map(({ quantity, best, found }) => {
    const { name, label = name, symbol, unit, formula, source } = quantity;
    const result = published.find((one) => one.quantity === quantity)?.id;
    const { numbers = [] } = found!;
    return {
      name: label,
      ...(result && { result }),
      symbol,
      value: best,
      unit,
      formula,
      source,
      ...(numbers.length > 0 && { numbers: [...numbers] }),
    };
  });
}
