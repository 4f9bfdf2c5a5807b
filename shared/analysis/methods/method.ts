/** A named set of published results, with the quantity of each. */
import type { MethodSet } from '../../contract/burn-record.ts';
import type { Message, ResultId } from '../../contract/results.ts';
import type { BurnQuantity } from '../quantities/declare.ts';

export interface Method {
  readonly name: MethodSet;
  readonly results: Readonly<Partial<Record<ResultId, BurnQuantity>>>;
  /** Why other results are missing; when left out, because the method does not define them. */
  readonly whyNoOthers?: Message;
}
