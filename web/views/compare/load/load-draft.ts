/**
 * Another load: its fields, and its request to the service. An empty field is omitted, and the value of the burns is
 * used.
 */
import type { Load } from '../../../../shared/contract/prediction.ts';
import { type Material, SPECIFIC_HEAT_J_PER_KG_K } from '../../../../shared/physics/heat-capacity.ts';
import { moistureWetFromDry } from '../../../../shared/physics/moisture.ts';
import { translate, translateCompare } from '../../../language/catalogue.ts';
import {
  askedIf,
  choice,
  type DraftOf,
  type Field,
  figure,
  needed,
  type Problems,
  quantity,
  readFields,
  right,
  select,
  type ValuesOf,
} from '../../forms/field-spec.ts';

const goodsKinds = ['vegetables', 'wool', 'linen', 'cotton', 'glass', 'own'] as const satisfies readonly (
  | Material
  | 'own'
)[];

export function goodsFields({ kind }: { kind: string }) {
  const words = translateCompare().load;
  return {
    kind: select(
      { label: words.goodsKind },
      goodsKinds.map((each) => [each, words.goodsKinds[each]] as const),
    ),
    massKg: needed(quantity('mass', { label: words.goodsMass, positive: true, high: 2000 })),
    specificHeatJPerKgK: askedIf(
      kind === 'own',
      needed(figure({ label: words.specificHeat, unit: 'kJ/(kg K)', factor: 1000, positive: true, high: 5 })),
    ),
    // Of a jar or bundle; its core lags the bath.
    diameterM: quantity('length', { label: words.goodsDiameter, positive: true, high: 1 }),
  };
}

export type GoodsDraft = DraftOf<ReturnType<typeof goodsFields>>;
export const blankGoods: GoodsDraft = { kind: 'vegetables', massKg: '', specificHeatJPerKgK: '', diameterM: '' };

/** Prefix of a goods field's name among the problems of the whole form. */
export function goodsPrefix(index: number): string {
  return `goods ${index} `;
}

type Choices = Record<'targetKind' | 'placeKind' | 'moistureBasis' | 'vesselKind', string>;

export function loadFields({ targetKind, placeKind, moistureBasis, vesselKind }: Choices) {
  const words = translateCompare().load;
  const described = translate().describe;
  const asInBurns = ['', words.asInBurns] as const;
  const placeholder = words.asInBurns;
  return {
    waterKg: needed(quantity('mass', { label: words.water, positive: true, high: 2000 })),
    startTempC: quantity('temperature', { label: words.startTemp, placeholder, low: 0, high: 99 }),
    targetKind: choice({ label: described.target }, [
      asInBurns,
      ['boil', described.boil],
      ['temperature', described.temperature],
    ]),
    targetTempC: askedIf(
      targetKind === 'temperature',
      needed(quantity('temperature', { label: described.targetTemp, low: 20, high: 120 })),
    ),
    holdDurationS: figure({
      label: described.holdMinutes,
      placeholder: described.holdNone,
      unit: 'min',
      factor: 60,
      positive: true,
      high: 1440,
    }),
    lid: choice({ label: words.lid }, [asInBurns, ['on', words.lidOn], ['off', words.lidOff]]),
    placeKind: choice({ label: described.place }, [
      asInBurns,
      ['altitude', described.fields.altitudeM],
      ['pressure', words.pressure],
    ]),
    altitudeM: askedIf(
      placeKind === 'altitude',
      needed(figure({ label: described.fields.altitudeM, unit: 'm', low: -500, high: 6000 })),
    ),
    stationPressurePa: askedIf(
      placeKind === 'pressure',
      needed(
        quantity('pressure', {
          label: words.pressure,
          hint: described.fields.pressureHelp,
          low: 45_000,
          high: 110_000,
        }),
      ),
    ),
    airTempC: quantity('temperature', { label: described.airTemp, placeholder, low: -40, high: 50 }),
    moistureWet: moisture({ label: words.moisture, placeholder }, moistureBasis),
    moistureBasis: choice({ label: described.fields.basis }, [
      ['wet', described.fields.bases.wet],
      ['dry', described.fields.bases.dry],
    ]),
    startKind: choice({ label: described.startKind }, [asInBurns, ['cold', described.cold], ['hot', described.hot]]),
    vesselKind: choice({ label: described.vessel }, [asInBurns, ['other', words.otherVessel]]),
    vesselMassKg: askedIf(
      vesselKind === 'other',
      quantity('mass', { label: described.fields.massKg, positive: true, high: 500 }),
    ),
    vesselDiameterM: askedIf(
      vesselKind === 'other',
      quantity('length', { label: described.fields.innerDiameterM, positive: true, high: 5 }),
    ),
  };
}

/** In percent, as a fraction of the wet wood, on whichever basis it was computed. */
function moisture(words: { label: string; placeholder: string }, basis: string): Field<number> {
  const percent = figure({ ...words, unit: '%', factor: 0.01, low: 0, high: basis === 'wet' ? 60 : 150 });
  return {
    ...percent,
    read(text) {
      const fraction = percent.read(text.replace(/%\s*$/, ''));
      return fraction.ok && basis === 'dry' ? right(moistureWetFromDry(fraction.value)) : fraction;
    },
  };
}

export interface LoadDraft extends DraftOf<ReturnType<typeof loadFields>> {
  readonly goods: readonly GoodsDraft[];
}

export const blankLoad: LoadDraft = {
  waterKg: '',
  startTempC: '',
  goods: [],
  targetKind: '',
  targetTempC: '',
  holdDurationS: '',
  lid: '',
  placeKind: '',
  stationPressurePa: '',
  altitudeM: '',
  airTempC: '',
  moistureWet: '',
  moistureBasis: 'wet',
  startKind: '',
  vesselKind: '',
  vesselMassKg: '',
  vesselDiameterM: '',
};

export type ReadLoad = { ok: true; load: Load } | { ok: false; problems: Problems };

export function readLoad(draft: LoadDraft): ReadLoad {
  const read = readFields(loadFields(draft), draft);
  const goods = draft.goods.map((each) => readFields(goodsFields(each), each));
  if (!read.ok || goods.some(({ ok }) => !ok)) {
    const ofGoods = goods.flatMap((each, index) =>
      each.ok ? [] : Object.entries(each.problems).map(([key, problem]) => [goodsPrefix(index) + key, problem]),
    );
    return { ok: false, problems: { ...(!read.ok && read.problems), ...Object.fromEntries(ofGoods) } };
  }
  const { targetKind, targetTempC, lid, placeKind: _, moistureBasis: __, startKind, ...values } = read.values;
  const { vesselKind, vesselMassKg: massKg, vesselDiameterM: innerDiameterM, ...own } = values;
  const contents = goods.flatMap((each) => (each.ok ? [contentOf(each.values)] : []));
  return {
    ok: true,
    load: {
      ...own,
      ...(contents.length > 0 && { contents }),
      ...(targetKind === 'boil' && { target: { kind: 'boil' } }),
      ...(targetTempC !== undefined && { target: { kind: 'temperature', tempC: targetTempC } }),
      ...(lid && { lid }),
      ...(startKind && { startKind }),
      ...(vesselKind && {
        vessel: { ...(massKg !== undefined && { massKg }), ...(innerDiameterM !== undefined && { innerDiameterM }) },
      }),
    },
  };
}

function contentOf({
  kind,
  massKg,
  specificHeatJPerKgK,
  diameterM,
}: ValuesOf<ReturnType<typeof goodsFields>>): NonNullable<Load['contents']>[number] {
  return {
    massKg,
    specificHeatJPerKgK: specificHeatJPerKgK ?? SPECIFIC_HEAT_J_PER_KG_K[kind as Material].value,
    ...(diameterM !== undefined && { radiusM: diameterM / 2 }),
  };
}
