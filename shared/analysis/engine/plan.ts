/**
 * The plan of computing some quantities of one evaluation, in order: the inputs in use, the quantities that follow from
 * them, and the columns each is computed from. The order follows from the dependencies, never from where a declaration
 * is.
 */
import { type Fill, fillBy } from './columns.ts';
import type { Input, Quantity, Sum, Term } from './declaration.ts';
import type { Evaluated, Evaluation } from './evaluation.ts';

interface SumStep {
  readonly out: number;
  readonly constant: number;
  readonly terms: readonly { readonly column: number; readonly weight: number }[];
}
interface QuantityStep {
  readonly out: number;
  readonly fill: Fill;
  readonly columns: readonly number[];
}

export interface Plan {
  /** Their columns come first, in this order. */
  readonly inputs: readonly Input[];
  readonly columnCount: number;
  readonly steps: readonly (SumStep | QuantityStep)[];
  /** Column of each requested quantity, in the order requested. */
  readonly results: readonly number[];
}

export function plan<Subject>(evaluation: Evaluation<Subject>, wanted: readonly Quantity<Subject>[]): Plan {
  const path = pathOf(evaluation, wanted);
  const inputs = inputsOf(path);
  const columnOfInput = new Map([...inputs.keys()].map((key, column) => [key, column]));
  const columnOfQuantity = new Map<Quantity<Subject>, number>();
  const steps: (SumStep | QuantityStep)[] = [];
  let columnCount = inputs.size;
  for (const { quantity, found } of path) {
    const { from = [], measured = [], compute } = found!;
    const columns = [
      ...from.map((input) => columnOfQuantity.get(input)!),
      ...measured.map((each) => ('terms' in each ? sumColumn(each) : columnOfInput.get(keyOf(each))!)),
    ];
    columnOfQuantity.set(quantity, compute ? columnCount : columns[0]!);
    if (compute) steps.push({ out: columnCount++, fill: fillBy(quantity, compute), columns });
  }
  return {
    inputs: [...inputs.values()],
    columnCount,
    steps,
    results: wanted.map((quantity) => columnOfQuantity.get(quantity)!),
  };

  function sumColumn({ constant, terms }: Sum): number {
    const [first] = terms;
    // A sum that equals one input needs no column of its own.
    if (terms.length === 1 && constant === 0 && first!.weight === 1) return columnOfInput.get(keyOf(first!.input))!;
    const step = terms.map(({ input, weight }) => ({ column: columnOfInput.get(keyOf(input))!, weight }));
    steps.push({ out: columnCount, constant, terms: step });
    return columnCount++;
  }
}

/** Returns a function that runs the plan over these columns, each time the columns of the inputs are filled. */
export function bind({ steps }: Plan, columns: readonly Float64Array[]): () => void {
  const bound = steps.map((step) => {
    const out = columns[step.out]!;
    if (!('fill' in step)) return () => addUp(out, step, columns);
    const from = step.columns.map((column) => columns[column]!);
    return () => step.fill(out, from);
  });
  return () => {
    for (const step of bound) step();
  };
}

/** Adds two terms at a time: most sums have one to three. */
function addUp(out: Float64Array, { constant, terms }: SumStep, columns: readonly Float64Array[]): void {
  out.fill(constant);
  for (let at = 0; at < terms.length; at += 2) {
    const one = terms[at]!;
    const other = terms[at + 1] ?? { column: one.column, weight: 0 };
    const oneColumn = columns[one.column]!;
    const otherColumn = columns[other.column]!;
    for (let row = 0; row < out.length; row++) {
      out[row] = out[row]! + one.weight * oneColumn[row]! + other.weight * otherColumn[row]!;
    }
  }
}

/** Returns the quantities on the paths taken, each after its inputs. */
export function pathOf<Subject>(
  evaluation: Evaluation<Subject>,
  wanted: readonly Quantity<Subject>[],
): Evaluated<Subject>[] {
  const found = new Map<Quantity<Subject>, Evaluated<Subject>>();
  const collect = (quantity: Quantity<Subject>): void => {
    if (found.has(quantity)) return;
    const evaluated = evaluation.quantity(quantity);
    for (const input of evaluated.found?.from ?? []) collect(input);
    found.set(quantity, evaluated);
  };
  for (const quantity of wanted) collect(quantity);
  return [...found.values()];
}

/** Returns inputs by key, in the order of the path. */
function inputsOf<Subject>(path: readonly Evaluated<Subject>[]): Map<string, Input> {
  const inputs = new Map<string, Input>();
  for (const { found } of path) {
    for (const { input } of (found!.measured ?? []).flatMap(termsOf)) {
      const key = keyOf(input);
      const known = inputs.get(key);
      if (known && !isSame(known, input)) throw new Error(`Two inputs are named ${key} and differ`);
      if (!known) inputs.set(key, input);
    }
  }
  return inputs;
}

function termsOf(measured: Input | Sum): readonly Term[] {
  return 'terms' in measured ? measured.terms : [{ input: measured, weight: 1 }];
}

/** Returns the key of an input's draws: its name, what it is shared with, and what it belongs to. */
export function keyOf({ name, sharedId = '', of = '' }: Input): string {
  return `${name} ${sharedId} ${of}`;
}

function isSame(a: Input, b: Input): boolean {
  return a.value === b.value && a.standardUncertainty === b.standardUncertainty && a.distribution === b.distribution;
}
