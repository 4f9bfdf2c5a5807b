/** The calculation of a result step by step from its inputs, down to the number that is shown. Pure. */
import type { ResultId, ValueResult } from '../../../shared/contract/results.ts';

/** A number in a line: an entry by its name, or the total of an earlier line. */
export interface WorkedFigure {
  readonly name?: string | undefined;
  readonly value: number;
  readonly unit: string;
}

/** `left sign right = total` */
interface WorkedLine {
  readonly left: WorkedFigure;
  readonly sign: Sign;
  readonly right: WorkedFigure;
  readonly total: WorkedFigure;
}

type Sign = '+' | '−' | '/';
type Term = string | Operation;

interface Operation {
  readonly left: Term;
  readonly sign: Sign;
  readonly right: Term;
  readonly unit: string;
  /** From the units of both sides to that of the total: W from MJ and s, kg/h from kg and s. */
  readonly factor: number;
}

const work = (left: Term, sign: Sign, right: Term, unit: string, factor = 1): Operation => ({
  left,
  sign,
  right,
  unit,
  factor,
});

const useful = work('loadMJ', '+', 'vapourMJ', 'MJ');
const burnt = work('fuelMJ', '−', 'charMJ', 'MJ');
const dryWood = work(burnt, '/', 'dryMJPerKg', 'kg');

/** A method that defines a result differently gives another value, which is then shown by its formula and steps. */
const workings: Partial<Record<ResultId, Operation>> = {
  meanUsefulPower: work('loadToTargetMJ', '/', 'litToTargetS', 'W', 1e6),
  cookingPower: work(useful, '/', 'wholeS', 'W', 1e6),
  fuelEnergy: burnt,
  equivalentDryFuel: dryWood,
  dryWoodPerBatch: dryWood,
  firepower: work(burnt, '/', 'wholeS', 'W', 1e6),
  burningRate: work(dryWood, '/', 'wholeS', 'kg/h', 3600),
  thermalEfficiency: work(useful, '/', burnt, '1'),
  thermalEfficiencyNoCharCredit: work(useful, '/', 'fuelMJ', '1'),
  sensibleEfficiency: work('loadMJ', '/', burnt, '1'),
  specificFuelConsumption: work(dryWood, '/', 'loadStartKg', 'kg/kg'),
  turnDownRatio: work(
    work('fuelToTargetKg', '/', 'litToTargetS', 'kg/h', 3600),
    '/',
    work('fuelInHoldKg', '/', 'holdWindowS', 'kg/h', 3600),
    '1',
  ),
};

/** Tolerance between the last line and the value itself. */
const NEAR = 1e-9;

/** In order; the last line is the result. Empty where it is not made of several numbers, or is computed differently. */
export function workedLines({ id, value, inputs, working }: ValueResult): WorkedLine[] {
  const operation = workings[id];
  const known = new Map([...working.steps, ...inputs].map((figure) => [figure.name, figure]));
  const lines: WorkedLine[] = [];
  const total = operation && workOut(operation, known, lines);
  return total && Math.abs(total.value - value) <= NEAR * Math.abs(value) ? lines : [];
}

function workOut(term: Term, known: ReadonlyMap<string, WorkedFigure>, lines: WorkedLine[]): WorkedFigure | undefined {
  if (typeof term === 'string') return known.get(term);
  const left = workOut(term.left, known, lines);
  const right = workOut(term.right, known, lines);
  if (!left || !right) return undefined;
  const total = { value: combined(left.value, term.sign, right.value) * term.factor, unit: term.unit };
  lines.push({ left, sign: term.sign, right, total });
  return total;
}

function combined(left: number, sign: Sign, right: number): number {
  if (sign === '+') return left + right;
  return sign === '−' ? left - right : left / right;
}
