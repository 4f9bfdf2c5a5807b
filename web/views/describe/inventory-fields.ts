/** What is asked about each kind of thing on the shelf, and how the typed text becomes the thing. */

import type { PlannedDays } from '../../../shared/contract/burn-record.ts';
import type { InventoryItem, InventoryKind } from '../../../shared/contract/inventory.ts';
import type { Dimension } from '../../../shared/language/shown.ts';
import { translate } from '../../state/catalogue.ts';
import { type Entry, readNumber, readQuantity, typed } from '../../state/figures.ts';
import { type Moisture, moistureDraft, moistureOf } from './moisture.ts';

type FieldName = keyof ReturnType<typeof translate>['describe']['fields'];

export interface FieldSpec {
  readonly key: string;
  readonly label: FieldName;
  readonly hint?: FieldName;
  readonly is:
    | { readonly a: 'text'; readonly required?: boolean; readonly lines?: number }
    | { readonly a: 'quantity'; readonly dimension: Dimension; readonly low?: number; readonly high?: number }
    | { readonly a: 'altitude' }
    | { readonly a: 'stove' }
    | { readonly a: 'parent' }
    | { readonly a: 'lotKind' }
    | { readonly a: 'plannedDays' };
}

const name: FieldSpec = { key: 'name', label: 'name', is: { a: 'text', required: true } };

export const inventoryFields: Record<InventoryKind, readonly FieldSpec[]> = {
  stoves: [name],
  revisions: [
    { key: 'stoveId', label: 'stoveId', is: { a: 'stove' } },
    { key: 'label', label: 'label', is: { a: 'text', required: true } },
    { key: 'parentId', label: 'parentId', is: { a: 'parent' } },
    { key: 'change', label: 'change', is: { a: 'text', lines: 3 } },
    { key: 'plannedDays', label: 'plannedDays', hint: 'plannedDaysHelp', is: { a: 'plannedDays' } },
    { key: 'bodyMassKg', label: 'bodyMassKg', is: { a: 'quantity', dimension: 'mass', high: 5000 } },
  ],
  vessels: [
    name,
    { key: 'massKg', label: 'massKg', is: { a: 'quantity', dimension: 'mass', high: 500 } },
    { key: 'material', label: 'material', is: { a: 'text' } },
    { key: 'innerDiameterM', label: 'innerDiameterM', is: { a: 'quantity', dimension: 'length', high: 5 } },
  ],
  fuelLots: [
    name,
    { key: 'kind', label: 'kind', is: { a: 'lotKind' } },
    { key: 'species', label: 'species', is: { a: 'text' } },
    {
      key: 'heatingValueMJPerKg',
      label: 'heatingValue',
      is: { a: 'quantity', dimension: 'heatingValue', low: 5, high: 60 },
    },
    { key: 'charMJPerKg', label: 'charMJPerKg', is: { a: 'quantity', dimension: 'heatingValue', low: 5, high: 40 } },
  ],
  places: [
    name,
    {
      key: 'stationPressurePa',
      label: 'pressure',
      hint: 'pressureHelp',
      is: { a: 'quantity', dimension: 'pressure', low: 40_000, high: 110_000 },
    },
    { key: 'altitudeM', label: 'altitudeM', is: { a: 'altitude' } },
  ],
  scales: [
    name,
    {
      key: 'standardUncertaintyKg',
      label: 'scaleResolution',
      hint: 'scaleHelp',
      is: { a: 'quantity', dimension: 'mass', high: 5 },
    },
  ],
};

export type InventoryDraft = Readonly<Record<string, string>>;

/** Everything of a thing as text in fields. */
export function draftOf(kind: InventoryKind, item: InventoryItem<InventoryKind> | undefined): InventoryDraft {
  const source = (item ?? {}) as Readonly<Record<string, unknown>>;
  const draft: Record<string, string> = {};
  for (const { key, is } of inventoryFields[kind]) {
    const value = key === 'heatingValueMJPerKg' ? netDry(source.heatingValue as HeatingValue | undefined) : source[key];
    if (is.a === 'quantity') draft[key] = typed(is.dimension, value as number | undefined);
    else if (is.a === 'plannedDays') draft[key] = `${(value as PlannedDays | undefined)?.days ?? ''}`;
    else draft[key] = value === undefined ? '' : String(value);
  }
  if (kind === 'fuelLots') {
    draft.kind ||= 'wood';
    Object.assign(draft, moistureDraft(source.moisture as Moisture | undefined));
  }
  if (kind === 'revisions') {
    draft.photo = typeof source.photo === 'string' ? source.photo : '';
    for (const [dimension, metres] of Object.entries((source.dimensionsM ?? {}) as Record<string, number>))
      draft[`dimension ${dimension}`] = typed('length', metres);
  }
  return draft;
}

type HeatingValue = NonNullable<InventoryItem<'fuelLots'>['heatingValue']>;

/** The field asks for net and dry: a value of another kind, brought in from elsewhere, is kept but not shown as one. */
function netDry(value: HeatingValue | undefined): number | undefined {
  return value?.basis === 'netDry' ? value.MJPerKg : undefined;
}

export type Problems = Readonly<Partial<Record<string, string>>>;

/**
 * The thing a draft describes, or what is wrong with it, field by field. Fields left empty are left out.
 * What nobody touched on a thing already known stays exactly as it was, whatever its field shows of it.
 */
export function thingOf(
  kind: InventoryKind,
  draft: InventoryDraft,
  item?: InventoryItem<InventoryKind>,
): { ok: true; thing: Record<string, unknown> } | { ok: false; problems: Problems } {
  const source = (item ?? {}) as Readonly<Record<string, unknown>>;
  const before = item && draftOf(kind, item);
  const isUntouched = (key: string) => before !== undefined && draft[key] === before[key];
  const thing: Record<string, unknown> = {};
  const problems: Record<string, string> = {};
  for (const spec of inventoryFields[kind]) {
    const target = spec.key === 'heatingValueMJPerKg' ? 'heatingValue' : spec.key;
    if (isUntouched(spec.key) && source[target] !== undefined) {
      thing[target] = source[target];
      continue;
    }
    const entry = readField(spec, (draft[spec.key] ?? '').trim());
    if (!entry.ok) problems[spec.key] = entry.problem;
    else if (entry.value === undefined) continue;
    else thing[target] = target === 'heatingValue' ? { MJPerKg: entry.value, basis: 'netDry' } : entry.value;
  }
  if (kind === 'fuelLots') {
    const known = isUntouched('moisture') ? (source.moisture as Moisture | undefined) : undefined;
    const moisture = moistureOf(draft, known);
    if (!moisture.ok) Object.assign(problems, moisture.problems);
    else if (moisture.value) thing.moisture = moisture.value;
  }
  if (kind === 'revisions') addDimensions(draft, thing, problems, before, source);
  return Object.keys(problems).length === 0 ? { ok: true, thing } : { ok: false, problems };
}

function readField({ is }: FieldSpec, text: string): Entry<unknown> {
  const words = translate().describe.number;
  if (text === '') {
    if (is.a === 'text' && is.required) return { ok: false, problem: words.text };
    if (is.a === 'stove') return { ok: false, problem: words.choose };
    return { ok: true, value: undefined };
  }
  if (is.a === 'quantity') return readQuantity(is.dimension, text, { positive: true, ...is });
  if (is.a === 'plannedDays') {
    return { ok: true, value: { days: text === 'untilClear' ? text : Number(text) } };
  }
  if (is.a === 'altitude') {
    const metres = readNumber(text);
    if (!metres.ok) return metres;
    if (metres.value < -500) return { ok: false, problem: words.tooLow({ low: '−500 m' }) };
    if (metres.value > 9000) return { ok: false, problem: words.tooHigh({ high: '9000 m' }) };
    return metres;
  }
  return { ok: true, value: text };
}

function addDimensions(
  draft: InventoryDraft,
  thing: Record<string, unknown>,
  problems: Record<string, string>,
  before: InventoryDraft | undefined,
  source: Readonly<Record<string, unknown>>,
): void {
  const known = (source.dimensionsM ?? {}) as Readonly<Record<string, number>>;
  const dimensions: Record<string, number> = {};
  for (const [key, text] of Object.entries(draft)) {
    if (!key.startsWith('dimension ') || text.trim() === '') continue;
    const name = key.slice('dimension '.length);
    const untouched = before?.[key] === text ? known[name] : undefined;
    const length: Entry<number> =
      untouched === undefined
        ? readQuantity('length', text, { positive: true, high: 20 })
        : { ok: true, value: untouched };
    if (length.ok) dimensions[name] = length.value;
    else problems[key] = length.problem;
  }
  if (Object.keys(dimensions).length > 0) thing.dimensionsM = dimensions;
}
