/**
 * Uncertainty of the results: Monte Carlo over all inputs jointly (JCGM 101), so that an error shared by two quantities moves both
 * and one-sided errors stay one-sided; beside it a budget from one-at-a-time sensitivities (JCGM 100, 5.1.3).
 */
import type { BudgetEntry } from '../../contract/results.ts';
import { createRandom, type Random } from '../../statistics/random.ts';
import type { Definition } from './definition.ts';
import { interval95 } from './interval.ts';
import { type Draw, type Input, type Model, ONE_SIDED_WIDTH } from './model.ts';
import { Quantities } from './quantities.ts';

export interface Uncertainty {
  readonly standardUncertainty: number;
  readonly interval95: [number, number];
  readonly budget: BudgetEntry[];
}

/** Draws worked on together; even, for they come in pairs. */
const BATCH = 32;
/** Entries below this share of the largest say nothing. */
const NEGLIGIBLE = 1e-4;

/**
 * One answer for each definition, in order.
 * @param values of the definitions at the best estimate
 * @param draws number of Monte Carlo draws; quantiles of 2.5 and 97.5 % of them are the interval, widened to hold the value
 */
export function propagate(
  model: Model,
  definitions: readonly Definition[],
  values: readonly number[],
  draws: number,
  seed: number | string,
): Uncertainty[] {
  const budgets = budgetsOf(model, definitions, values);
  const drawn = drawDeviations(model, definitions, values, draws, createRandom(seed));
  return definitions.map((_definition, index) => {
    const deviations = drawn[index]!;
    const value = values[index]!;
    const standardUncertainty = spread(deviations);
    // A result that no input moves has no tails to look for.
    const [low, high] = standardUncertainty === 0 ? [0, 0] : interval95(deviations);
    return {
      standardUncertainty,
      interval95: [value + Math.min(low, 0), value + Math.max(high, 0)],
      budget: budgets[index]!,
    };
  });
}

/**
 * How far each draw of each result lies from its best estimate, in antithetic pairs: every draw is followed by its mirror image about the centre of each distribution
 * (J. M. Hammersley, K. W. Morton, Proc. Camb. Phil. Soc. 52, 1956), which halves the cost and steadies the mean. A draw that leads
 * to no number (there should be none) counts as the best estimate. Deviations keep seven digits, and half the memory to go through.
 */
function drawDeviations(
  model: Model,
  definitions: readonly Definition[],
  values: readonly number[],
  draws: number,
  random: Random,
): Float32Array[] {
  const { inputs, computations } = model;
  const formulas = definitions.map(({ value }) => value);
  const deviations = definitions.map(() => new Float32Array(draws));
  const columns = inputs.map(() => new Float64Array(BATCH / 2));
  const twiceCentre = Float64Array.from(inputs, twiceCentreOf);
  const drawn = Array.from({ length: BATCH }, () => model.bestEstimate());
  const quantities = drawn.map(() => new Quantities());
  for (let from = 0; from < draws; from += BATCH) {
    drawBatch();
    const count = Math.min(BATCH, draws - from);
    // One function for the whole batch, then the next: a processor that knows what is called next runs ahead.
    for (const compute of computations) for (let at = 0; at < BATCH; at++) compute(drawn[at]!, quantities[at]!);
    for (let index = 0; index < formulas.length; index++) {
      const formula = formulas[index]!;
      const value = values[index]!;
      const column = deviations[index]!;
      for (let at = 0; at < count; at++) {
        const deviation = formula(quantities[at]!) - value;
        column[from + at] = Number.isFinite(deviation) ? deviation : 0;
      }
    }
  }
  return deviations;

  function drawBatch(): void {
    for (let index = 0; index < inputs.length; index++) {
      const column = columns[index]!;
      const twice = twiceCentre[index]!;
      drawColumn(inputs[index]!, column, random);
      for (let pair = 0; pair < column.length; pair++) {
        drawn[2 * pair]![index] = column[pair]!;
        drawn[2 * pair + 1]![index] = twice - column[pair]!;
      }
    }
  }
}

function twiceCentreOf({ value, standardUncertainty, distribution }: Input): number {
  return 2 * value + (distribution === 'oneSided' ? ONE_SIDED_WIDTH * standardUncertainty : 0);
}

function drawColumn(input: Input, column: Float64Array, random: Random): void {
  const { value, standardUncertainty: u, distribution } = input;
  if (distribution === 'normal') {
    random.fillNormal(column);
    for (let at = 0; at < column.length; at++) column[at] = value + u * column[at]!;
    return;
  }
  random.fillUniform(column);
  const from = distribution === 'oneSided' ? value : value - Math.sqrt(3) * u;
  for (let at = 0; at < column.length; at++) column[at] = from + ONE_SIDED_WIDTH * u * column[at]!;
}

/** Standard deviation in one pass: about their best estimate, deviations are too small to cancel. */
function spread(deviations: Float32Array): number {
  const count = deviations.length;
  if (count < 2) return 0;
  let sum = 0;
  let squares = 0;
  for (let at = 0; at < count; at++) {
    const deviation = deviations[at]!;
    sum += deviation;
    squares += deviation * deviation;
  }
  return Math.sqrt(Math.max(0, squares - (sum * sum) / count) / (count - 1));
}

/** What each input alone brings to each result: the change of the result over one standard uncertainty of the input. */
function budgetsOf(model: Model, definitions: readonly Definition[], values: readonly number[]): BudgetEntry[][] {
  const best = model.bestEstimate();
  const budgets: BudgetEntry[][] = definitions.map(() => []);
  model.inputs.forEach((input, index) => {
    const { standardUncertainty: u, distribution } = input;
    if (u === 0) return;
    const above = distribution === 'oneSided' ? ONE_SIDED_WIDTH * u : u;
    const below = distribution === 'oneSided' ? 0 : u;
    const high = resultsAt(model, definitions, moved(best, index, above));
    const low = below === 0 ? values : resultsAt(model, definitions, moved(best, index, -below));
    definitions.forEach((_definition, result) => {
      const effect = ((high[result]! - low[result]!) / (above + below)) * u;
      if (effect === 0 || !Number.isFinite(effect)) return;
      budgets[result]!.push({
        input: input.name,
        contribution: Math.abs(effect),
        sign: effect > 0 ? 1 : -1,
        sharing: input.sharing,
        ...(input.sharedId === undefined ? {} : { sharedId: input.sharedId }),
      });
    });
  });
  return budgets.map(tidy);
}

export function resultsAt(model: Model, definitions: readonly Definition[], draw: Draw): number[] {
  const quantities = model.evaluate(draw);
  return definitions.map((definition) => definition.value(quantities));
}

function moved(best: Draw, index: number, by: number): Draw {
  const draw = best.slice();
  draw[index]! += by;
  return draw;
}

function tidy(budget: BudgetEntry[]): BudgetEntry[] {
  const largest = Math.max(...budget.map(({ contribution }) => contribution));
  return budget
    .filter(({ contribution }) => contribution > NEGLIGIBLE * largest)
    .sort((a, b) => b.contribution - a.contribution);
}
