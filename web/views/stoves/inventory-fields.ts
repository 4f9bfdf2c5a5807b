/** The fields of each kind of inventory document, and the document that the entries describe. */

import type { PlannedDays } from '../../../shared/contract/burn-record.ts';
import type { InventoryItem, InventoryKind } from '../../../shared/contract/inventory.ts';
import type { Moisture } from '../../../shared/contract/moisture.ts';
import { translate } from '../../language/catalogue.ts';
import { currentInventory } from '../../state/inventory.ts';
import { entryText } from '../forms/entry-text.ts';
import {
  draftOf,
  type Field,
  type Fields,
  figure,
  line,
  needed,
  type Options,
  type Problems,
  quantity,
  readFields,
  right,
  select,
} from '../forms/field-spec.ts';
import { moistureDraft, moistureFields, moistureOf } from './moisture.ts';

export type InventoryDraft = Readonly<Record<string, string>>;

type HeatingValue = NonNullable<InventoryItem<'fuelLots'>['heatingValue']>;

const lotKinds = ['wood', 'kindling', 'firelighter', 'charcoal', 'gas'] as const;

/** The offered numbers of days per revision: fewer than two give no scatter, more than a fortnight is unrealistic. */
const dayNumbers = Array.from({ length: 13 }, (_, index) => `${index + 2}`);

/** @param self the document itself, which cannot be its own parent */
export function inventoryFields(kind: InventoryKind, draft: InventoryDraft, self?: string): Fields {
  const words = translate().describe.fields;
  const none = ['', translate().describe.none] as const;
  const name = needed(line({ label: words.name }));
  const mass = (label: string, high: number, hint?: string) => quantity('mass', { label, hint, positive: true, high });
  switch (kind) {
    case 'stoves':
      return { name };
    case 'revisions':
      return {
        stoveId: needed(select({ label: words.stoveId }, [none, ...named(currentInventory.value?.stoves)])),
        label: needed(line({ label: words.label })),
        parentId: select({ label: words.parentId }, [none, ...parentsFor(draft.stoveId, self)]),
        change: line({ label: words.change, lines: 3 }),
        plannedDays: plannedDays(),
        bodyMassKg: mass(words.bodyMassKg, 5000),
      };
    case 'vessels':
      return {
        name,
        massKg: mass(words.massKg, 500),
        material: line({ label: words.material }),
        innerDiameterM: quantity('length', { label: words.innerDiameterM, positive: true, high: 5 }),
      };
    case 'fuelLots':
      return {
        name,
        kind: select(
          { label: words.kind },
          lotKinds.map((each) => [each, words.kinds[each]]),
        ),
        species: line({ label: words.species }),
        heatingValue: netDryHeatingValue(),
        charMJPerKg: quantity('heatingValue', { label: words.charMJPerKg, low: 5, high: 40 }),
      };
    case 'places':
      return {
        name,
        stationPressurePa: quantity('pressure', {
          label: words.pressure,
          hint: words.pressureHelp,
          low: 40_000,
          high: 110_000,
        }),
        altitudeM: figure({ label: words.altitudeM, unit: words.metres, low: -500, high: 9000 }),
      };
    case 'scales':
      return { name, standardUncertaintyKg: mass(words.scaleResolution, 5, words.scaleHelp) };
  }
}

function named(things: readonly { id: string; name: string }[] = []): Options<string> {
  return things.map(({ id, name }) => [id, name]);
}

function parentsFor(stove: string | undefined, self: string | undefined): Options<string> {
  return (currentInventory.value?.revisions ?? [])
    .filter(({ id, stoveId }) => id !== self && (!stove || stoveId === stove))
    .map(({ id, label }) => [id, label]);
}

function plannedDays(): Field<PlannedDays> {
  const words = translate().describe.fields;
  return {
    ...select({ label: words.plannedDays, hint: words.plannedDaysHelp }, [
      ['', words.noPlannedDays],
      ['untilClear', words.plannedDaysUntilClear],
      ...dayNumbers.map((days) => [days, words.plannedDaysNumber({ days })] as const),
    ]),
    write: ({ days }) => `${days}`,
    read: (text) => right({ days: text === 'untilClear' ? text : Number(text) }),
  };
}

/** The net value of dry fuel: an imported value of another kind is saved but not shown as one. */
function netDryHeatingValue(): Field<HeatingValue> {
  const figures = quantity('heatingValue', { label: translate().describe.fields.heatingValue, low: 5, high: 60 });
  return {
    ...figures,
    write: ({ basis, MJPerKg }) => (basis === 'netDry' ? figures.write(MJPerKg) : ''),
    read(text) {
      const entry = figures.read(text);
      return entry.ok ? right({ MJPerKg: entry.value, basis: 'netDry' }) : entry;
    },
  };
}

const dimensionPrefix = 'dimension ';

/** The dimensions that a person has named on a revision, each with its field. */
export function dimensionFields(draft: InventoryDraft): Fields {
  return Object.fromEntries(
    Object.keys(draft)
      .filter((key) => key.startsWith(dimensionPrefix))
      .map((key) => [key, quantity('length', { label: key.slice(dimensionPrefix.length), positive: true, high: 20 })]),
  );
}

/** The dimensions that can be parsed as typed, in metres. */
export function dimensionsRead(draft: InventoryDraft): Record<string, number> {
  return Object.fromEntries(
    Object.entries(dimensionFields(draft)).flatMap(([key, field]) => {
      const entry = field.read(draft[key] ?? '');
      return entry.ok && entry.value !== undefined ? [[key.slice(dimensionPrefix.length), entry.value]] : [];
    }),
  );
}

export function dimensionKey(name: string): string {
  return `${dimensionPrefix}${name}`;
}

type KnownThing = Readonly<Record<string, unknown>> & {
  moisture?: Moisture | undefined;
  dimensionsM?: Readonly<Record<string, number>> | undefined;
};

function dimensionsOf({ dimensionsM = {} }: KnownThing): Record<string, number> {
  return Object.fromEntries(Object.entries(dimensionsM).map(([name, metres]) => [dimensionKey(name), metres]));
}

/** A document as the entries of its fields. */
export function inventoryDraft(kind: InventoryKind, item: InventoryItem<InventoryKind> | undefined): InventoryDraft {
  const known: KnownThing = { ...(kind === 'fuelLots' && { kind: 'wood' }), ...item };
  const dimensions = dimensionsOf(known);
  return {
    ...draftOf(inventoryFields(kind, {}), known),
    ...(kind === 'fuelLots' && moistureDraft(known.moisture)),
    ...(kind === 'revisions' && { photo: String(known.photo ?? '') }),
    ...draftOf(dimensionFields(Object.fromEntries(Object.keys(dimensions).map((key) => [key, '']))), dimensions),
  };
}

/** The document that a draft describes, or what is wrong with it, field by field. Empty fields are omitted. */
export function thingOf(
  kind: InventoryKind,
  draft: InventoryDraft,
  item?: InventoryItem<InventoryKind>,
): { ok: true; thing: Record<string, unknown> } | { ok: false; problems: Problems } {
  const known: KnownThing = { ...item };
  const isMoistureTouched = draft.moisture !== moistureDraft(known.moisture).moisture;
  const own = readFields(inventoryFields(kind, draft), draft, known);
  const lengths = readFields(dimensionFields(draft), draft, dimensionsOf(known));
  const moisture =
    kind === 'fuelLots' ? moistureOf(draft, isMoistureTouched ? undefined : known.moisture) : right(undefined);
  if (!own.ok || !lengths.ok || !moisture.ok) {
    const problems = [own, lengths, moisture].map((part) => (part.ok || !('problems' in part) ? {} : part.problems));
    return { ok: false, problems: Object.assign({}, ...problems) };
  }
  const dimensions = Object.entries(lengths.values).map(([key, metres]) => [key.slice(dimensionPrefix.length), metres]);
  return {
    ok: true,
    thing: {
      ...own.values,
      ...(moisture.value && { moisture: moisture.value }),
      ...(dimensions.length > 0 && { dimensionsM: Object.fromEntries(dimensions) }),
      ...(draft.photo && { photo: draft.photo }),
    },
  };
}

/** The label of a field, and an entry of it as readable text; empty for an empty entry. */
export function inventoryEntryText(
  kind: InventoryKind,
  draft: InventoryDraft,
  key: string,
  text = '',
): { label: string; text: string } {
  if (key === 'photo')
    return { label: translate().describe.fields.photo, text: text && translate().describe.meanwhile.otherPhoto };
  const field = { ...inventoryFields(kind, draft), ...moistureFields(), ...dimensionFields({ ...draft, [key]: '' }) }[
    key
  ];
  return field ? { label: field.label, text: entryText(field, text) } : { label: key, text };
}
