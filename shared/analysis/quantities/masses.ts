/**
 * Weighed masses with their errors: one gain and one tare for each scale, one reading error for each weighing. What was weighed on
 * the same scale shares its gain and its tare, so that both cancel where they should.
 */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import type { Weighing } from '../../contract/weighings.ts';
import { waterMassKg } from '../../physics/water.ts';
import { linear, type Term } from '../engine/linear.ts';
import { byDefault } from '../engine/messages.ts';
import type { Draw, Model } from '../engine/model.ts';

/** A sum of weighings: its value and what a draw makes of it. */
export interface Mass {
  readonly kg: number;
  readonly of: (draw: Draw) => number;
  readonly defaults: readonly Message[];
}

/** One reading of a scale: kg shown, its own reading error where stated, the scale. */
export interface ScaleReading {
  readonly what: string;
  readonly kg: number;
  /** +1 for what is counted in, −1 for what is counted off. */
  readonly sign: 1 | -1;
  readonly scaleId?: string | undefined;
  readonly standardUncertaintyKg?: number | undefined;
}

/** A kitchen or luggage scale of which nothing is known ("common practice, no source"). */
const READING_U_KG = 0.01;
const READING_U_SHARE = 0.001;
const GAIN_U = 0.004;
const ZERO_U_KG = 0.01;
const VOLUME_U_SHARE = 0.01;
/** A litre mark is read at room temperature unless told otherwise. */
const ROOM_C = 20;

export class Scales {
  private readonly record: BurnRecord;
  private readonly model: Model;
  private readonly shared = new Map<string, { gain: number; zero: number; defaults: Message[] }>();

  constructor(record: BurnRecord, model: Model) {
    this.record = record;
    this.model = model;
  }

  /** The sum of several readings. Those of one sum that belong together share one entry for their own errors. */
  sum(what: string, readings: readonly ScaleReading[]): Mass {
    const defaults: Message[] = [];
    const terms = new Map<string, { gain: number; zero: number; kg: number; count: number }>();
    let ownVariance = 0;
    let kg = 0;
    for (const reading of readings) {
      const scaleId = reading.scaleId ?? this.onlyScaleId() ?? `unnamed ${reading.what}`;
      const scale = this.scale(scaleId);
      const term = terms.get(scaleId) ?? { ...scale, kg: 0, count: 0 };
      term.kg += reading.sign * reading.kg;
      term.count += reading.sign;
      terms.set(scaleId, term);
      defaults.push(...scale.defaults);
      const own = reading.standardUncertaintyKg ?? this.readingU(scaleId, reading.kg);
      ownVariance += own * own;
      kg += reading.sign * reading.kg;
    }
    const errors: Term[] = [...terms.values()].flatMap((term) => [
      { place: term.gain, weight: -term.kg },
      { place: term.zero, weight: -term.count },
    ]);
    if (ownVariance > 0) {
      errors.push({ place: this.model.ownError(`weighing.${what}`, Math.sqrt(ownVariance)), weight: -1 });
    }
    const mattering = errors.filter(({ weight }) => weight !== 0);
    return { kg, defaults, of: linear(kg, mattering) };
  }

  private onlyScaleId(): string | undefined {
    const scales = this.record.scales ?? [];
    return scales.length === 1 ? scales[0]!.id : undefined;
  }

  private readingU(scaleId: string, kg: number): number {
    const stated = this.record.scales?.find(({ id }) => id === scaleId)?.standardUncertaintyKg;
    return stated ?? Math.max(READING_U_KG, READING_U_SHARE * kg);
  }

  private scale(scaleId: string): { gain: number; zero: number; defaults: Message[] } {
    const known = this.shared.get(scaleId);
    if (known) return known;
    const described = this.record.scales?.find(({ id }) => id === scaleId);
    const gainU = described?.gainStandardUncertainty ?? GAIN_U;
    const zeroU = described?.zeroStandardUncertaintyKg ?? ZERO_U_KG;
    const shared = { value: 0, distribution: 'normal', sharing: 'scale', sharedId: scaleId } as const;
    const complete =
      described?.gainStandardUncertainty !== undefined &&
      described.zeroStandardUncertaintyKg !== undefined &&
      described.standardUncertaintyKg !== undefined;
    const scale = {
      gain: this.model.input({ name: 'scale.gain', standardUncertainty: gainU, ...shared }),
      zero: this.model.input({ name: 'scale.zero', standardUncertainty: zeroU, ...shared }),
      defaults: complete
        ? []
        : [
            byDefault('scaleUncertainty', {
              scale: described?.name ?? '',
              readingKg: described?.standardUncertaintyKg ?? READING_U_KG,
              gain: gainU,
              zeroKg: zeroU,
            }),
          ],
    };
    this.shared.set(scaleId, scale);
    return scale;
  }
}

/** A weighing as a reading of a scale; a volume becomes a mass at the temperature it was read at. `undefined` while it is pending. */
export function weighingReading(
  weighing: Weighing,
  sign: 1 | -1,
): { reading: ScaleReading; defaults: Message[] } | undefined {
  const common = { what: weighing.of, sign, scaleId: weighing.scaleId };
  if (weighing.massKg !== undefined) {
    const reading = { ...common, kg: weighing.massKg, standardUncertaintyKg: weighing.standardUncertaintyKg };
    return { reading, defaults: [] };
  }
  if (weighing.volumeL === undefined) return undefined;
  const tempC = Math.min(110, Math.max(0, weighing.tempC ?? ROOM_C));
  const kg = waterMassKg(weighing.volumeL, tempC);
  const u = weighing.standardUncertaintyKg ?? VOLUME_U_SHARE * kg;
  const defaults: Message[] = [];
  if (weighing.tempC === undefined) defaults.push(byDefault('readAtTemp', { tempC }));
  if (weighing.standardUncertaintyKg === undefined)
    defaults.push(byDefault('volumeUncertainty', { standardUncertaintyKg: u }));
  // A jug or a dipstick is a scale of its own.
  return { reading: { ...common, scaleId: `volume ${weighing.of}`, kg, standardUncertaintyKg: u }, defaults };
}
