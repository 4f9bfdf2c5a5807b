/**
 * Weighed masses with their errors: one gain and one tare per scale, one reading error per weighing. Weighings on the
 * same scale share its gain and its tare, so that both cancel where they should.
 */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import type { Weighing } from '../../contract/weighings.ts';
import { waterMassKg } from '../../physics/water.ts';
import { type Input, ownError, type Sum, type Term } from '../engine/declaration.ts';
import { byDefault } from '../messages/messages.ts';

/** One reading of a scale: kg displayed, its own reading error where stated, the scale. */
export interface ScaleReading {
  readonly what: string;
  readonly kg: number;
  /** +1 for an added mass, −1 for a subtracted one. */
  readonly sign: 1 | -1;
  readonly scaleId?: string | undefined;
  readonly standardUncertaintyKg?: number | undefined;
  /** Default values used because nothing was stated. */
  readonly defaults?: readonly Message[];
}

/** Standard uncertainty of a kitchen or luggage scale without a stated one ("common practice, no source"). */
const READING_U_KG = 0.01;
const READING_U_SHARE = 0.001;
const GAIN_U = 0.004;
const ZERO_U_KG = 0.01;
const VOLUME_U_SHARE = 0.01;
/** Assumed temperature of a volume read without one. */
const ROOM_C = 20;

/**
 * Returns the sum of several readings, kg. Those of one sum that belong together share one entry for their own errors.
 * @param of distinguishes sums of one name
 */
export function weighedSum(record: BurnRecord, what: string, readings: readonly ScaleReading[], of?: string): Sum {
  const scales = new Map<string, { gain: Input; zero: Input; kg: number; count: number }>();
  const defaults: Message[] = [];
  let ownVariance = 0;
  let constant = 0;
  for (const reading of readings) {
    const scaleId = reading.scaleId ?? onlyScaleId(record) ?? `unnamed ${reading.what}`;
    const scale = scales.get(scaleId) ?? { ...scaleErrors(record, scaleId), kg: 0, count: 0 };
    scales.set(scaleId, { ...scale, kg: scale.kg + reading.sign * reading.kg, count: scale.count + reading.sign });
    const { standardUncertaintyKg: readingU } = reading;
    const own = readingU ?? scaleOf(record, scaleId)?.standardUncertaintyKg;
    ownVariance += (own ?? Math.max(READING_U_KG, READING_U_SHARE * reading.kg)) ** 2;
    constant += reading.sign * reading.kg;
    defaults.push(...(reading.defaults ?? []), ...(own === undefined ? scaleDefaults(record, scaleId) : []));
  }
  const terms: Term[] = [...scales.values()].flatMap(({ gain, zero, kg, count }) => [
    { input: gain, weight: -kg },
    { input: zero, weight: -count },
  ]);
  const own = ownError(`weighing.${what}`, Math.sqrt(ownVariance), { of, defaults });
  terms.push({ input: own, weight: -1 });
  return { constant, terms: terms.filter(({ input, weight }) => weight !== 0 && input.standardUncertainty > 0) };
}

const scaleOf = ({ scales }: BurnRecord, scaleId: string) => scales?.find(({ id }) => id === scaleId);

function onlyScaleId({ scales = [] }: BurnRecord): string | undefined {
  return scales.length === 1 ? scales[0]!.id : undefined;
}

function scaleErrors(record: BurnRecord, scaleId: string): { gain: Input; zero: Input } {
  const described = scaleOf(record, scaleId);
  const shared = { sharing: 'scale', sharedId: scaleId } as const;
  const error = (name: string, stated: number | undefined, usual: number): Input => ({
    ...ownError(name, stated ?? usual, { defaults: stated === undefined ? scaleDefaults(record, scaleId) : [] }),
    ...shared,
  });
  return {
    gain: error('scale.gain', described?.gainStandardUncertainty, GAIN_U),
    zero: error('scale.zero', described?.zeroStandardUncertaintyKg, ZERO_U_KG),
  };
}

function scaleDefaults(record: BurnRecord, scaleId: string): Message[] {
  const described = scaleOf(record, scaleId);
  return [
    byDefault('scaleUncertainty', {
      scale: described?.name ?? '',
      readingKg: described?.standardUncertaintyKg ?? READING_U_KG,
      gain: described?.gainStandardUncertainty ?? GAIN_U,
      zeroKg: described?.zeroStandardUncertaintyKg ?? ZERO_U_KG,
    }),
  ];
}

/**
 * Converts a weighing to a reading of a scale; a volume becomes a mass at the temperature of its reading. Returns
 * `undefined` while it is pending.
 */
export function weighingReading(weighing: Weighing, sign: 1 | -1): ScaleReading | undefined {
  const common = { what: weighing.of, sign, scaleId: weighing.scaleId };
  if (weighing.massKg !== undefined) {
    return { ...common, kg: weighing.massKg, standardUncertaintyKg: weighing.standardUncertaintyKg };
  }
  if (weighing.volumeL === undefined) return undefined;
  const tempC = Math.min(110, Math.max(0, weighing.tempC ?? ROOM_C));
  const kg = waterMassKg(weighing.volumeL, tempC);
  const u = weighing.standardUncertaintyKg ?? VOLUME_U_SHARE * kg;
  const defaults: Message[] = [];
  if (weighing.tempC === undefined) defaults.push(byDefault('readAtTemp', { tempC }));
  if (weighing.standardUncertaintyKg === undefined)
    defaults.push(byDefault('volumeUncertainty', { standardUncertaintyKg: u }));
  // A jug or a dipstick counts as a scale of its own.
  return { ...common, scaleId: `volume ${weighing.of}`, kg, standardUncertaintyKg: u, defaults };
}
