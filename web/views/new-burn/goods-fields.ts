/** Goods heated with the water, as fields of the form. */
import type { Content } from '../../../shared/contract/burn-record.ts';
import { translate } from '../../language/catalogue.ts';
import { number } from '../../language/figures.ts';
import { type DraftOf, draftOf, figure, line, needed, quantity, readFields } from '../forms/field-spec.ts';
import { unchangedFields } from '../forms/unchanged-fields.ts';

export function goodsFields() {
  const words = translate().describe;
  return {
    name: needed(line({ label: words.fields.name })),
    massKg: needed(quantity('mass', { label: words.goodsMass, positive: true, high: 500 })),
    // From dry wood and glass (about 0.8) to water (4.19): a value outside was probably entered in another unit.
    specificHeatJPerKgK: needed(
      figure({ label: words.goodsHeat, unit: 'kJ/(kg K)', factor: 1000, decimals: 2, low: 0.3, high: 4.5 }),
    ),
    startTempC: quantity('temperature', { label: words.goodsTemp, low: -40, high: 150, decimals: 1 }),
  };
}

export interface GoodsDraft extends DraftOf<ReturnType<typeof goodsFields>> {
  readonly id: string;
  /** As saved before. */
  readonly known: Partial<Content>;
}

/** Most goods consist mostly of water: 4 kJ/(kg K). */
export function newGoods(id: string): GoodsDraft {
  return { id, known: {}, name: '', massKg: '', specificHeatJPerKgK: number(4, 1), startTempC: '' };
}

export function goodsDraft(known: Content): GoodsDraft {
  return { id: known.id, known, ...draftOf(goodsFields(), known) };
}

/** Prefix of a goods field's name among the problems of the whole form. */
export function goodsPrefix(id: string): string {
  return `goods ${id} `;
}

export function readGoods(draft: GoodsDraft) {
  const fields = goodsFields();
  const read = readFields(fields, draft, draft.known);
  return read.ok
    ? { ok: true as const, content: { ...unchangedFields(fields, draft.known), id: draft.id, ...read.values } }
    : read;
}
