/**
 * Uncertainty of the results: Monte Carlo over all inputs jointly (JCGM 101), so that an error shared by two ingredients moves both
 * and one-sided errors stay one-sided; beside it a budget from one-at-a-time sensitivities (JCGM 100, 5.1.3).
 */
import type { BudgetEntry } from '../contract/results.ts';
import { createRandom, type Random } from '../statistics/random.ts';
import { Ingredients } from './ingredients.ts';
import { interval95 } from './interval.ts';
import { type Draw, type Input, type Ledger, ONE_SIDED_WIDTH } from './ledger.ts';
import type { Definition } from './method-sets/definition.ts';

export interface Uncertainty {
  readonly standardUncertainty: number;
  readonly interval95: [number, number];
  readonly budget: BudgetEntry[];
}

const BLOCK = 250;
/** Entries below this share of the largest say nothing. */
const NEGLIGIBLE = 1e-4;

/**
 * One answer for each definition, in order.
 * @param values of the definitions at the best estimate
 * @param draws number of Monte Carlo draws; quantiles of 2.5 and 97.5 % of them are the interval, widened to hold the value
 */
export function propagate(
  ledger: Ledger,
  definitions: readonly Definition[],
  values: readonly number[],
  draws: number,
  seed: number | string,
): Uncertainty[] {
  const budgets = budgetsOf(ledger, definitions, values);
  const drawn = drawResults(ledger, definitions, values, draws, createRandom(seed));
  return definitions.map((_definition, place) => {
    const results = drawn[place]!;
    const value = values[place]!;
    const [low, high] = interval95(results);
    return {
      standardUncertainty: spread(results),
      interval95: [Math.min(low, value), Math.max(high, value)],
      budget: budgets[place]!,
    };
  });
}

/**
 * Draws of each result, in antithetic pairs: every draw is followed by its mirror image about the centre of each distribution
 * (J. M. Hammersley, K. W. Morton, Proc. Camb. Phil. Soc. 52, 1956), which halves the cost and steadies the mean. A draw that leads
 * to no number (there should be none) counts as the best estimate.
 */
function drawResults(
  ledger: Ledger,
  definitions: readonly Definition[],
  values: readonly number[],
  draws: number,
  random: Random,
): Float64Array[] {
  const { inputs, fills } = ledger;
  const formulas = definitions.map(({ value }) => value);
  const results = definitions.map(() => new Float64Array(draws));
  const block = new Float64Array(inputs.length * BLOCK);
  const columns = inputs.map((_, place) => block.subarray(place * BLOCK, (place + 1) * BLOCK));
  const twiceCentre = Float64Array.from(inputs, twiceCentreOf);
  const draw = ledger.bestEstimate();
  const ingredients = new Ingredients();
  for (let at = 0; at < draws; at += 2) {
    const entry = (at / 2) % BLOCK;
    if (entry === 0)
      for (let place = 0; place < inputs.length; place++) fillColumn(inputs[place]!, columns[place]!, random);
    for (let place = 0; place < draw.length; place++) draw[place] = block[place * BLOCK + entry]!;
    evaluateInto(at);
    for (let place = 0; place < draw.length; place++) draw[place] = twiceCentre[place]! - draw[place]!;
    if (at + 1 < draws) evaluateInto(at + 1);
  }
  return results;

  function evaluateInto(at: number): void {
    for (let place = 0; place < fills.length; place++) fills[place]!(draw, ingredients);
    for (let place = 0; place < formulas.length; place++) {
      const result = formulas[place]!(ingredients);
      results[place]![at] = Number.isFinite(result) ? result : values[place]!;
    }
  }
}

function twiceCentreOf({ value, standardUncertainty, distribution }: Input): number {
  return 2 * value + (distribution === 'oneSided' ? ONE_SIDED_WIDTH * standardUncertainty : 0);
}

function fillColumn(input: Input, column: Float64Array, random: Random): void {
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

function spread(values: Float64Array): number {
  const count = values.length;
  if (count < 2) return 0;
  let sum = 0;
  for (let at = 0; at < count; at++) sum += values[at]!;
  const mean = sum / count;
  let squares = 0;
  for (let at = 0; at < count; at++) squares += (values[at]! - mean) * (values[at]! - mean);
  return Math.sqrt(squares / (count - 1));
}

/** What each input alone brings to each result: the change of the result over one standard uncertainty of the input. */
function budgetsOf(ledger: Ledger, definitions: readonly Definition[], values: readonly number[]): BudgetEntry[][] {
  const best = ledger.bestEstimate();
  const budgets: BudgetEntry[][] = definitions.map(() => []);
  ledger.inputs.forEach((input, place) => {
    const { standardUncertainty: u, distribution } = input;
    if (u === 0) return;
    const above = distribution === 'oneSided' ? ONE_SIDED_WIDTH * u : u;
    const below = distribution === 'oneSided' ? 0 : u;
    const high = resultsAt(ledger, definitions, moved(best, place, above));
    const low = below === 0 ? values : resultsAt(ledger, definitions, moved(best, place, -below));
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

export function resultsAt(ledger: Ledger, definitions: readonly Definition[], draw: Draw): number[] {
  const ingredients = ledger.evaluate(draw);
  return definitions.map((definition) => definition.value(ingredients));
}

function moved(best: Draw, place: number, by: number): Draw {
  const draw = best.slice();
  draw[place]! += by;
  return draw;
}

function tidy(budget: BudgetEntry[]): BudgetEntry[] {
  const largest = Math.max(...budget.map(({ contribution }) => contribution));
  return budget
    .filter(({ contribution }) => contribution > NEGLIGIBLE * largest)
    .sort((a, b) => b.contribution - a.contribution);
}
