/** What is asked about each kind of thing on the shelf, and how the typed text becomes the thing. */
import type { ShelfItem, ShelfKind } from '../../../shared/contract/api.ts';
import type { Dimension } from '../../../shared/language/shown.ts';
import { say } from '../../state/catalogue.ts';
import { type Entry, readNumber, readQuantity, typed } from '../../state/figures.ts';

type FieldName = keyof ReturnType<typeof say>['describe']['fields'];

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
    | { readonly a: 'lotKind' };
}

const name: FieldSpec = { key: 'name', label: 'name', is: { a: 'text', required: true } };

export const shelfFields: Record<ShelfKind, readonly FieldSpec[]> = {
  stoves: [name],
  revisions: [
    { key: 'stoveId', label: 'stoveId', is: { a: 'stove' } },
    { key: 'label', label: 'label', is: { a: 'text', required: true } },
    { key: 'parentId', label: 'parentId', is: { a: 'parent' } },
    { key: 'change', label: 'change', is: { a: 'text', lines: 3 } },
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

export type ShelfDraft = Readonly<Record<string, string>>;

/** Everything of a thing as text in fields. */
export function draftOf(kind: ShelfKind, item: ShelfItem<ShelfKind> | undefined): ShelfDraft {
  const source = (item ?? {}) as Readonly<Record<string, unknown>>;
  const draft: Record<string, string> = {};
  for (const { key, is } of shelfFields[kind]) {
    const value =
      key === 'heatingValueMJPerKg' ? (source.heatingValue as { MJPerKg?: number } | undefined)?.MJPerKg : source[key];
    if (is.a === 'quantity') draft[key] = typed(is.dimension, value as number | undefined);
    else draft[key] = value === undefined ? '' : String(value);
  }
  if (kind === 'fuelLots') {
    draft.kind ||= 'wood';
    const moisture = source.moisture as { fraction: number; basis: string; how: string } | undefined;
    draft.moisture = moisture ? String(Math.round(moisture.fraction * 1000) / 10) : '';
    draft.basis = moisture?.basis ?? '';
    draft.how = moisture?.how ?? 'meter';
  }
  if (kind === 'revisions') {
    for (const [dimension, metres] of Object.entries((source.dimensionsM ?? {}) as Record<string, number>))
      draft[`dimension ${dimension}`] = typed('length', metres);
  }
  return draft;
}

export type Problems = Readonly<Record<string, string>>;

/** The thing a draft describes, or what is wrong with it, field by field. Fields left empty are left out. */
export function thingOf(
  kind: ShelfKind,
  draft: ShelfDraft,
): { ok: true; thing: Record<string, unknown> } | { ok: false; problems: Problems } {
  const thing: Record<string, unknown> = {};
  const problems: Record<string, string> = {};
  for (const spec of shelfFields[kind]) {
    const text = (draft[spec.key] ?? '').trim();
    const entry = readField(spec, text);
    if (!entry.ok) problems[spec.key] = entry.problem;
    else if (entry.value === undefined) continue;
    else if (spec.key === 'heatingValueMJPerKg') thing.heatingValue = { MJPerKg: entry.value, basis: 'netDry' };
    else thing[spec.key] = entry.value;
  }
  if (kind === 'fuelLots') addMoisture(draft, thing, problems);
  if (kind === 'revisions') addDimensions(draft, thing, problems);
  return Object.keys(problems).length === 0 ? { ok: true, thing } : { ok: false, problems };
}

function readField({ is }: FieldSpec, text: string): Entry<unknown> {
  const words = say().describe.number;
  if (text === '') {
    if (is.a === 'text' && is.required) return { ok: false, problem: words.text };
    if (is.a === 'stove') return { ok: false, problem: words.choose };
    return { ok: true, value: undefined };
  }
  if (is.a === 'quantity') return readQuantity(is.dimension, text, { positive: true, ...is });
  if (is.a === 'altitude') {
    const metres = readNumber(text);
    if (!metres.ok) return metres;
    if (metres.value < -500) return { ok: false, problem: words.tooLow({ low: '−500 m' }) };
    if (metres.value > 9000) return { ok: false, problem: words.tooHigh({ high: '9000 m' }) };
    return metres;
  }
  return { ok: true, value: text };
}

/** Several meter readings in a row become their mean, and their scatter its uncertainty. */
export function moistureReadings(text: string): Entry<readonly number[]> {
  const parts = text.split(/[;\s]+/).filter((part) => part !== '');
  const readings: number[] = [];
  for (const part of parts) {
    const reading = readNumber(part.replace(/%$/, ''));
    if (!reading.ok) return reading;
    if (reading.value < 0 || reading.value > 300)
      return { ok: false, problem: say().describe.number.tooHigh({ high: '300 %' }) };
    readings.push(reading.value / 100);
  }
  return { ok: true, value: readings };
}

function addMoisture(draft: ShelfDraft, thing: Record<string, unknown>, problems: Record<string, string>): void {
  if ((draft.moisture ?? '').trim() === '') return;
  const readings = moistureReadings(draft.moisture ?? '');
  if (!readings.ok) {
    problems.moisture = readings.problem;
    return;
  }
  if (draft.basis !== 'wet' && draft.basis !== 'dry') {
    problems.basis = say().describe.number.choose;
    return;
  }
  const count = readings.value.length;
  const fraction = readings.value.reduce((sum, reading) => sum + reading, 0) / count;
  const scatter = Math.sqrt(readings.value.reduce((sum, reading) => sum + (reading - fraction) ** 2, 0) / (count - 1));
  thing.moisture = {
    fraction,
    basis: draft.basis,
    how: draft.how,
    ...(count >= 3 && scatter > 0 && { standardUncertainty: scatter / Math.sqrt(count) }),
  };
}

function addDimensions(draft: ShelfDraft, thing: Record<string, unknown>, problems: Record<string, string>): void {
  const dimensions: Record<string, number> = {};
  for (const [key, text] of Object.entries(draft)) {
    if (!key.startsWith('dimension ') || text.trim() === '') continue;
    const length = readQuantity('length', text, { positive: true, high: 100 });
    if (length.ok) dimensions[key.slice('dimension '.length)] = length.value;
    else problems[key] = length.problem;
  }
  if (Object.keys(dimensions).length > 0) thing.dimensionsM = dimensions;
}
