/** Another load as typed, and as it is asked of the service; figures stay as typed until then. */
import type { Load } from '../../../../shared/contract/prediction.ts';
import { type Material, SPECIFIC_HEAT_J_PER_KG_K } from '../../../../shared/physics/heat-capacity.ts';
import { moistureWetFromDry } from '../../../../shared/physics/moisture.ts';
import { translate } from '../../../state/catalogue.ts';
import { type Entry, number, readNumber, readQuantity } from '../../../state/figures.ts';

export const goodsKinds = ['vegetables', 'wool', 'linen', 'cotton', 'glass', 'own'] as const satisfies readonly (
  | Material
  | 'own'
)[];

export interface GoodsDraft {
  readonly kind: (typeof goodsKinds)[number];
  readonly mass: string;
  /** Only for goods of a kind of one's own, kJ/(kg K). */
  readonly specificHeat: string;
  /** Of a jar or bundle; its middle lags the bath. */
  readonly diameter: string;
}

export interface LoadDraft {
  readonly water: string;
  readonly startTemp: string;
  readonly goods: readonly GoodsDraft[];
  readonly targetKind: '' | 'boil' | 'temperature';
  readonly targetTemp: string;
  readonly holdMinutes: string;
  readonly lid: '' | 'on' | 'off';
  readonly placeKind: '' | 'pressure' | 'altitude';
  readonly pressure: string;
  readonly altitude: string;
  readonly airTemp: string;
  readonly moisture: string;
  readonly moistureBasis: 'wet' | 'dry';
  readonly startKind: '' | 'cold' | 'hot';
  readonly vesselKind: '' | 'other';
  readonly vesselMass: string;
  readonly vesselDiameter: string;
}

export const blankLoad: LoadDraft = {
  water: '',
  startTemp: '',
  goods: [],
  targetKind: '',
  targetTemp: '',
  holdMinutes: '',
  lid: '',
  placeKind: '',
  pressure: '',
  altitude: '',
  airTemp: '',
  moisture: '',
  moistureBasis: 'wet',
  startKind: '',
  vesselKind: '',
  vesselMass: '',
  vesselDiameter: '',
};

export const blankGoods: GoodsDraft = { kind: 'vegetables', mass: '', specificHeat: '', diameter: '' };

/** What is wrong, by the name of the field; those of goods carry their place: `goods 0 mass`. */
export type LoadProblems = Readonly<Record<string, string>>;

export type ReadLoad = { ok: true; load: Load } | { ok: false; problems: LoadProblems };

/** Read the entries. What is left empty is left out, and taken as it was in the burns. */
export function readLoad(draft: LoadDraft): ReadLoad {
  const problems: Record<string, string> = {};
  const take = (field: string, entry: Entry<number>): number => {
    if (entry.ok) return entry.value;
    problems[field] = entry.problem;
    return Number.NaN;
  };
  const optional = (field: keyof LoadDraft, entry: () => Entry<number>): number | undefined =>
    String(draft[field]).trim() === '' ? undefined : take(field, entry());
  const waterKg = take('water', readQuantity('mass', draft.water, { positive: true, high: 2000 }));
  const startTempC = optional('startTemp', () => readQuantity('temperature', draft.startTemp, { low: 0, high: 99 }));
  const contents = draft.goods.map((goods, index) =>
    readGoods(goods, (field, entry) => take(`goods ${index} ${field}`, entry)),
  );
  const holdMin = optional('holdMinutes', () => positive(draft.holdMinutes, 1440, 'min'));
  const airTempC = optional('airTemp', () => readQuantity('temperature', draft.airTemp, { low: -40, high: 50 }));
  const moisture = optional('moisture', () => readMoisture(draft));
  const load: Load = {
    waterKg,
    ...(startTempC !== undefined && { startTempC }),
    ...(contents.length > 0 && { contents }),
    ...targetOf(draft, take),
    ...(holdMin !== undefined && { holdDurationS: holdMin * 60 }),
    ...(draft.lid && { lid: draft.lid }),
    ...placeOf(draft, take),
    ...(airTempC !== undefined && { airTempC }),
    ...(moisture !== undefined && { moistureWet: moisture }),
    ...(draft.startKind && { startKind: draft.startKind }),
    ...vesselOf(draft, optional),
  };
  return Object.keys(problems).length > 0 ? { ok: false, problems } : { ok: true, load };
}

type Take = (field: string, entry: Entry<number>) => number;

function readGoods(goods: GoodsDraft, take: Take): NonNullable<Load['contents']>[number] {
  const massKg = take('mass', readQuantity('mass', goods.mass, { positive: true, high: 2000 }));
  const specificHeatJPerKgK =
    goods.kind === 'own'
      ? 1000 * take('specificHeat', positive(goods.specificHeat, 5, 'kJ/(kg K)'))
      : SPECIFIC_HEAT_J_PER_KG_K[goods.kind].value;
  if (goods.diameter.trim() === '') return { massKg, specificHeatJPerKgK };
  const diameterM = take('diameter', readQuantity('length', goods.diameter, { positive: true, high: 1 }));
  return { massKg, specificHeatJPerKgK, radiusM: diameterM / 2 };
}

function targetOf({ targetKind, targetTemp }: LoadDraft, take: Take): Pick<Load, 'target'> {
  if (targetKind === 'boil') return { target: { kind: 'boil' } };
  if (targetKind === '') return {};
  const tempC = take('targetTemp', readQuantity('temperature', targetTemp, { low: 20, high: 120 }));
  return { target: { kind: 'temperature', tempC } };
}

function placeOf(
  { placeKind, pressure, altitude }: LoadDraft,
  take: Take,
): Pick<Load, 'stationPressurePa' | 'altitudeM'> {
  if (placeKind === 'pressure')
    return { stationPressurePa: take('pressure', readQuantity('pressure', pressure, { low: 45_000, high: 110_000 })) };
  if (placeKind === 'altitude') return { altitudeM: take('altitude', between(altitude, -500, 6000, 'm')) };
  return {};
}

function vesselOf(
  { vesselKind, vesselMass, vesselDiameter }: LoadDraft,
  optional: (field: keyof LoadDraft, entry: () => Entry<number>) => number | undefined,
): Pick<Load, 'vessel'> {
  if (vesselKind === '') return {};
  const massKg = optional('vesselMass', () => readQuantity('mass', vesselMass, { positive: true, high: 500 }));
  const innerDiameterM = optional('vesselDiameter', () =>
    readQuantity('length', vesselDiameter, { positive: true, high: 5 }),
  );
  return {
    vessel: { ...(massKg !== undefined && { massKg }), ...(innerDiameterM !== undefined && { innerDiameterM }) },
  };
}

/** Moisture in percent as a fraction of the wet wood, whichever way it was reckoned. */
function readMoisture({ moisture, moistureBasis }: LoadDraft): Entry<number> {
  const typed = between(moisture.replace(/%\s*$/, ''), 0, moistureBasis === 'wet' ? 60 : 150, '%');
  if (!typed.ok) return typed;
  const fraction = typed.value / 100;
  return { ok: true, value: moistureBasis === 'wet' ? fraction : moistureWetFromDry(fraction) };
}

function positive(typed: string, high: number, unit: string): Entry<number> {
  const entry = between(typed, 0, high, unit);
  return entry.ok && entry.value === 0 ? { ok: false, problem: translate().describe.number.notPositive } : entry;
}

function between(typed: string, low: number, high: number, unit: string): Entry<number> {
  const entry = readNumber(typed);
  if (!entry.ok) return entry;
  const words = translate().describe.number;
  if (entry.value < low) return { ok: false, problem: words.tooLow({ low: `${number(low, 0)}\u00a0${unit}` }) };
  if (entry.value > high) return { ok: false, problem: words.tooHigh({ high: `${number(high, 0)}\u00a0${unit}` }) };
  return entry;
}
