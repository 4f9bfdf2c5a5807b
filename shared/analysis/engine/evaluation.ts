/** Evaluates the declarations for one subject: the facts, the path of each quantity, its value or why it is missing. */
import type { Message } from '../../contract/results.ts';
import { computeRow } from './columns.ts';
import type { Declaration, Fact, Found, Given, Input, Quantity, Sum } from './declaration.ts';
import { bestOfSum } from './declaration.ts';

/** A quantity as it was evaluated. */
export interface Evaluated<Subject> {
  readonly quantity: Quantity<Subject>;
  /** The path to it; `undefined` where it is missing. */
  readonly found: Found<Subject> | undefined;
  readonly best: number;
  readonly missing: Message | undefined;
}

export interface Evaluation<Subject> {
  fact<T>(fact: Fact<Subject, T>): T;
  quantity(quantity: Quantity<Subject>): Evaluated<Subject>;
}

/** Facts and quantities are evaluated once, on first use. */
export function evaluate<Subject>(subject: Subject): Evaluation<Subject> {
  const facts = new Map<Fact<Subject>, { readonly value: unknown }>();
  const quantities = new Map<Quantity<Subject>, Evaluated<Subject>>();

  function fact<T>(wanted: Fact<Subject, T>): T {
    const known = facts.get(wanted as Fact<Subject>) ?? { value: wanted.find(givenTo(wanted)) };
    facts.set(wanted as Fact<Subject>, known);
    return known.value as T;
  }

  function quantity(wanted: Quantity<Subject>): Evaluated<Subject> {
    const known = quantities.get(wanted) ?? evaluated(wanted);
    quantities.set(wanted, known);
    return known;
  }

  function evaluated(wanted: Quantity<Subject>): Evaluated<Subject> {
    const state = wanted.state(givenTo(wanted));
    if ('missing' in state) return { quantity: wanted, found: undefined, best: Number.NaN, missing: state.missing };
    const from = (state.from ?? []).map(quantity);
    const columns = [...from.map(({ best }) => best), ...(state.measured ?? []).map(bestOf)];
    const best = state.compute ? computeRow(state.compute, columns) : columns[0]!;
    const missing = from.find((each) => each.missing)?.missing ?? state.refuse?.(best);
    return { quantity: wanted, found: state, best, missing };
  }

  function givenTo(reader: Declaration<Subject>): Given<Subject> {
    const declared = <D extends Declaration<Subject>>(wanted: D): D => {
      if (!reader.needs.includes(wanted))
        throw new Error(`${reader.name} does not declare that it needs ${wanted.name}`);
      return wanted;
    };
    return {
      subject,
      fact: (wanted) => fact(declared(wanted as Fact<Subject>) as typeof wanted),
      best: (wanted) => quantity(declared(wanted)).best,
      whyMissing: (wanted) => quantity(declared(wanted)).missing,
    };
  }

  return { fact, quantity };
}

export function bestOf(measured: Input | Sum): number {
  return 'terms' in measured ? bestOfSum(measured) : measured.value;
}
