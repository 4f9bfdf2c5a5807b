/**
 * The types of declarations: name, symbol and unit of a quantity, its inputs, and its computation from them.
 * Declarations are plain data, independent of stoves. `Subject` is the data of one evaluation: a record.
 */
import type { BudgetEntry, FormulaNumber, Message, ValueResult } from '../../contract/results.ts';
import type { Compute } from './columns.ts';

/** `oneSided`: the error is never below zero; rectangular from the value to value + √12·standardUncertainty. */
export type Distribution = 'normal' | 'rectangular' | 'oneSided';

/** Full width of a one-sided error: √12 standard uncertainties of the rectangular distribution. */
export const ONE_SIDED_WIDTH = Math.sqrt(12);

/** A measured or assumed number, or the error of one. Inputs of one key are one input, wherever they are used. */
export interface Input {
  /** Its name in budgets. */
  readonly name: string;
  readonly value: number;
  readonly standardUncertainty: number;
  readonly distribution: Distribution;
  readonly sharing: BudgetEntry['sharing'];
  readonly sharedId?: string | undefined;
  /** Distinguishes inputs of one name that are not shared. */
  readonly of?: string | undefined;
  /** Defaults used because nothing was stated: listed with every result that has this input in its budget. */
  readonly defaults?: readonly Message[];
}

/** Makes an error around zero that is not shared. */
export function ownError(
  name: string,
  standardUncertainty: number,
  more: Partial<Pick<Input, 'distribution' | 'of' | 'defaults'>> = {},
): Input {
  return { name, value: 0, standardUncertainty, distribution: 'normal', sharing: 'none', ...more };
}

/** A constant and a weighted sum of inputs: what most measured numbers are. */
export interface Sum {
  readonly constant: number;
  readonly terms: readonly Term[];
}
export interface Term {
  readonly input: Input;
  readonly weight: number;
}

/** Value of a sum with every input at its best estimate. */
export function bestOfSum({ constant, terms }: Sum): number {
  return terms.reduce((total, { input, weight }) => total + weight * input.value, constant);
}

/** Standard uncertainty of a sum of independent inputs. */
export function standardUncertaintyOfTerms(terms: readonly Term[]): number {
  return Math.hypot(...terms.map(({ input, weight }) => weight * input.standardUncertainty));
}

/** What a declaration may read while it is evaluated: only what it declares as its inputs. */
export interface Given<Subject> {
  readonly subject: Subject;
  fact<T>(fact: Fact<Subject, T>): T;
  /** Returns the value at the best estimate of every input; NaN where it has none. */
  best(quantity: Quantity<Subject>): number;
  whyMissing(quantity: Quantity<Subject>): Message | undefined;
}

/** Something computed once, without an uncertainty of its own: a curve, a moment, a set of weighings. */
export interface Fact<Subject, T = unknown> {
  readonly kind: 'fact';
  readonly name: string;
  readonly needs: readonly Declaration<Subject>[];
  readonly find: (given: Given<Subject>) => T;
}

interface Named {
  readonly name: string;
  /** Name in a working, where it differs from the name. */
  readonly label?: string;
  readonly symbol: string;
  /** UCUM. */
  readonly unit: string;
  readonly window?: ValueResult['window'];
  /** The formula in symbols, for the reader. */
  readonly formula: string;
  readonly source: string;
}

export interface Quantity<Subject> extends Named {
  readonly kind: 'quantity';
  readonly needs: readonly Declaration<Subject>[];
  /** For a quantity that is only arithmetic on others: these, in the order of its arguments. */
  readonly inputs?: readonly Quantity<Subject>[];
  /** Number of arguments of the arithmetic. */
  readonly argumentCount?: number;
  /** Shown in a working without being part of the value. */
  readonly alsoShown?: readonly Quantity<Subject>[];
  readonly state: (given: Given<Subject>) => State<Subject>;
}
export type Declaration<Subject> = Fact<Subject> | Quantity<Subject>;

/** The outcome of a quantity in one evaluation. */
export type State<Subject> = { readonly missing: Message } | Found<Subject>;

export interface Found<Subject> {
  /**
   * Quantities on the path taken: the first columns that `compute` is given. One that is missing makes this one
   * missing.
   */
  readonly from?: readonly Quantity<Subject>[];
  /** Measured numbers and their errors: the columns after those. */
  readonly measured?: readonly (Input | Sum)[];
  /** Left out where the quantity equals its only column. */
  readonly compute?: Compute;
  /** Why it counts as missing although it has a value, which others may still read. */
  readonly refuse?: ((best: number) => Message | undefined) | undefined;
  readonly remarks?: readonly Message[];
  /** Default values without uncertainty, used because none was given. */
  readonly defaults?: readonly Message[];
  /** Numbers that the formula uses besides other quantities, at their best estimates. */
  readonly numbers?: readonly FormulaNumber[];
}

type Numbers<Inputs extends readonly unknown[]> = { [Position in keyof Inputs]: number };

export interface Formula<Subject, Inputs extends readonly Quantity<Subject>[]> extends Named {
  /** In order of importance: where several are missing, the first gives the reason. */
  readonly inputs: readonly [...Inputs];
  readonly alsoShown?: readonly Quantity<Subject>[];
  readonly compute: (...inputs: Numbers<Inputs>) => number;
  /** Why it counts as missing although it has a value. */
  readonly refuse?: (best: number, given: Given<Subject>) => Message | undefined;
  readonly remarks?: (given: Given<Subject>) => readonly Message[];
}
