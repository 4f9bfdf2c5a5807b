/**
 * What is known about one burn: every uncertain input once, and how the quantities of the results follow from them.
 *
 * An input is a number somebody measured or assumed, with its standard uncertainty and what that error is shared with. A
 * quantity is what results are made of. The same `fill` functions give the values (inputs at their best estimate),
 * the sensitivities (one input moved) and the Monte Carlo draws (all inputs drawn), so that the three can never disagree.
 */
import type { BudgetEntry, Message } from '../../contract/results.ts';
import { Quantities, type QuantityName } from './quantities.ts';

/** `oneSided`: the error is never below zero; rectangular from the value to value + √12·standardUncertainty. */
export type Distribution = 'normal' | 'rectangular' | 'oneSided';

export interface Input {
  readonly name: string;
  readonly value: number;
  readonly standardUncertainty: number;
  readonly distribution: Distribution;
  readonly sharing: BudgetEntry['sharing'];
  readonly sharedId?: string;
}

/** One draw of all inputs, in the order in which they were entered. */
export type Draw = Float64Array;
export type Compute = (draw: Draw, quantities: Quantities) => void;

/** Full width of a one-sided error: √12 standard uncertainties of the rectangular distribution. */
export const ONE_SIDED_WIDTH = Math.sqrt(12);

export class Model {
  readonly inputs: Input[] = [];
  readonly computations: Compute[] = [];
  readonly missing = new Map<QuantityName, Message>();
  readonly defaults = new Map<QuantityName, Message[]>();
  readonly remarks = new Map<QuantityName, Message[]>();
  /** Remarks on the burn as a whole. */
  readonly burnRemarks: Message[] = [];

  /** Enters an input and answers its place in a draw. */
  input(input: Input): number {
    return this.inputs.push(input) - 1;
  }

  /** An error around zero that is shared with nothing. */
  ownError(name: string, standardUncertainty: number, distribution: Distribution = 'normal'): number {
    return this.input({ name, value: 0, standardUncertainty, distribution, sharing: 'none' });
  }

  /** A quantity that cannot be known, and why. The first reason given stays. */
  markMissing(names: QuantityName | readonly QuantityName[], why: Message): void {
    for (const name of [names].flat()) if (!this.missing.has(name)) this.missing.set(name, why);
  }

  setDefault(names: QuantityName | readonly QuantityName[], what: Message): void {
    note(this.defaults, names, what);
  }

  remark(names: QuantityName | readonly QuantityName[], what: Message): void {
    note(this.remarks, names, what);
  }

  define(compute: Compute): void {
    this.computations.push(compute);
  }

  isKnown(name: QuantityName): boolean {
    return !this.missing.has(name);
  }

  /** All inputs at their best estimate. */
  bestEstimate(): Draw {
    return Float64Array.from(this.inputs, (input) => input.value);
  }

  /** Quantities that follow from one draw. */
  evaluate(draw: Draw): Quantities {
    const quantities = new Quantities();
    for (const compute of this.computations) compute(draw, quantities);
    return quantities;
  }
}

function note(notes: Map<QuantityName, Message[]>, names: QuantityName | readonly QuantityName[], what: Message): void {
  for (const name of [names].flat()) {
    const list = notes.get(name) ?? [];
    if (!list.some((known) => sameMessage(known, what))) notes.set(name, [...list, what]);
  }
}

export function sameMessage(a: Message, b: Message): boolean {
  return a.code === b.code && JSON.stringify(a.params) === JSON.stringify(b.params);
}
