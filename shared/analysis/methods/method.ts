/** A named set of published results: which quantity stands behind each. */
import type { MethodSet } from '../../contract/burn-record.ts';
import type { Message, ResultId } from '../../contract/results.ts';
import type { BurnQuantity } from '../quantities/declare.ts';

export interface Method {
  readonly name: MethodSet;
  readonly results: Readonly<Partial<Record<ResultId, BurnQuantity>>>;
  /** Why it has no others; that it defines none, when left out. */
  readonly whyNoOthers?: Message;
}
