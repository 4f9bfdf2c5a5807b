/** Functions to declare facts and quantities of a burn record. */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Given, Quantity } from '../engine/declaration.ts';
import { declaring } from '../engine/declare.ts';
import type { Evaluation } from '../engine/evaluation.ts';

export const { fact, quantity, formula } = declaring<BurnRecord>();
export type BurnQuantity = Quantity<BurnRecord>;
export type BurnEvaluation = Evaluation<BurnRecord>;
export type GivenBurn = Given<BurnRecord>;
