/** How a method set defines a result: a pure function of quantities, with its words and its working. */
import type { MethodSet } from '../../contract/burn-record.ts';
import type { Message, ResultId, ValueResult } from '../../contract/results.ts';
import type { Quantities, QuantityName } from './quantities.ts';

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
  /** Quantities without which there is no value, most telling first. */
  readonly needs: readonly QuantityName[];
  readonly value: (quantities: Readonly<Quantities>) => number;
  /** In symbols a reader can follow; its names are those of the steps and inputs. */
  readonly formula: string;
  readonly source: string;
  /** Intermediate steps worth showing. */
  readonly steps?: (quantities: Readonly<Quantities>) => Step[];
  /** Why there is no value although every quantity is known. */
  readonly refuse?: (quantities: Readonly<Quantities>) => Message | undefined;
  readonly remarks?: (quantities: Readonly<Quantities>) => Message[];
}

export interface Method {
  readonly name: MethodSet;
  readonly definitions: readonly Definition[];
}
