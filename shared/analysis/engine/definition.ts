/** How a method set defines a result: a pure function of ingredients, with its words and its working. */
import type { MethodSet } from '../../contract/burn-record.ts';
import type { Message, ResultId, ValueResult } from '../../contract/results.ts';
import type { IngredientName, Ingredients } from './quantities.ts';

export interface Step {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
}

export interface Definition {
  readonly id: ResultId;
  /** UCUM. */
  readonly unit: string;
  readonly window: ValueResult['window'];
  /** Ingredients without which there is no value, most telling first. */
  readonly needs: readonly IngredientName[];
  readonly value: (ingredients: Readonly<Ingredients>) => number;
  /** In symbols a reader can follow; its names are those of the steps and inputs. */
  readonly formula: string;
  readonly source: string;
  /** Intermediate steps worth showing. */
  readonly steps?: (ingredients: Readonly<Ingredients>) => Step[];
  /** Why there is no value although every ingredient is known. */
  readonly refuse?: (ingredients: Readonly<Ingredients>) => Message | undefined;
  readonly remarks?: (ingredients: Readonly<Ingredients>) => Message[];
}

export interface Method {
  readonly name: MethodSet;
  readonly definitions: readonly Definition[];
}
