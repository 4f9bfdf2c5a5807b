/** Functions to declare facts and quantities of one kind of subject. */
import { each } from './columns.ts';
import type { Fact, Formula, Given, Quantity } from './declaration.ts';

export interface Declaring<Subject> {
  fact<T>(name: string, needs: Fact<Subject>['needs'], find: (given: Given<Subject>) => T): Fact<Subject, T>;
  quantity(declaration: Omit<Quantity<Subject>, 'kind' | 'inputs' | 'argumentCount'>): Quantity<Subject>;
  /** Declares a quantity that is only arithmetic on others; missing where one of them is. */
  formula<Inputs extends readonly Quantity<Subject>[]>(declaration: Formula<Subject, Inputs>): Quantity<Subject>;
}

export function declaring<Subject>(): Declaring<Subject> {
  return {
    fact: (name, needs, find) => ({ kind: 'fact', name, needs, find }),
    quantity: (declaration) => ({ kind: 'quantity', ...declaration }),
    formula: ({ inputs, alsoShown = [], compute, refuse, remarks, ...names }) => ({
      kind: 'quantity',
      ...names,
      inputs,
      alsoShown,
      needs: [...inputs, ...alsoShown],
      argumentCount: compute.length,
      state(given) {
        for (const input of inputs) {
          const missing = given.whyMissing(input);
          if (missing) return { missing };
        }
        return {
          from: inputs,
          compute: each(compute as (...row: number[]) => number),
          refuse: (best) => refuse?.(best, given),
          remarks: remarks?.(given) ?? [],
        };
      },
    }),
  };
}
