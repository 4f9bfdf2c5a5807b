/**
 * Reads the entries of the sheet that weighs what is left: converts gross masses to net weighings, with a sentence for
 * each invalid entry.
 */
import type { Moisture } from '../../../shared/contract/moisture.ts';
import type { Weighing } from '../../../shared/contract/weighings.ts';
import { translate } from '../../language/catalogue.ts';
import { type Entry, typed } from '../../language/figures.ts';
import { uuid7 } from '../../outbox/uuid7.ts';
import { type Field, figure, quantity, right, wrong } from '../forms/field-spec.ts';
import { type MoistureDraft, moistureDraft, moistureOf } from '../stoves/moisture.ts';
import { dippedLitres } from './dipstick.ts';
import type { WeighField } from './things-to-weigh.ts';

/** One field as typed and ticked. */
export interface WeighDraft {
  readonly measured: 'mass' | 'volume' | 'dip';
  /** Gross, where it is weighed in a container. */
  readonly amount: string;
  readonly temp: string;
  readonly lidOn: boolean;
  readonly inContainer: boolean;
  readonly isLater: boolean;
  /** Of half-burnt wood. */
  readonly moisture: MoistureDraft;
}

/** Data shared by all fields. */
export interface WeighContext {
  readonly bucket: Entry<number>;
  readonly potKg: number | undefined;
  readonly innerDiameterM: number | undefined;
  readonly lidStayedOn: boolean;
}

export interface WeighProblems {
  readonly amount?: string;
  readonly temp?: string;
  readonly bucket?: string;
  /** By field of the moisture. */
  readonly moisture?: Readonly<Record<string, string>>;
}

/** The weighing of a field; undefined where nothing was weighed. */
export type ReadWeighing = { ok: true; weighing: Weighing | undefined } | { ok: false; problems: WeighProblems };

export function bucketField() {
  const words = translate().burns.wrap;
  return quantity('mass', { label: words.bucket, hint: words.bucketHelp, positive: true, high: 50 });
}

export function tempField() {
  return quantity('temperature', { label: translate().burns.wrap.tempAt, decimals: 1, low: -5, high: 110 });
}

/** Gross, as a mass, as a volume, or as the depth of water on a dipstick. */
export function amountField(
  measured: WeighDraft['measured'],
  innerDiameterM: number | undefined,
): Field<number> & { amount: (value: number) => Amount } {
  const words = translate().burns.wrap;
  if (measured === 'mass')
    return { ...quantity('mass', { label: words.mass, low: 0, high: 500 }), amount: (massKg) => ({ massKg }) };
  if (measured === 'volume')
    return {
      ...quantity('volume', { label: words.asVolume, positive: true, high: 500 }),
      amount: (volumeL) => ({ volumeL }),
    };
  const depth = figure({ label: words.dip, unit: 'mm', factor: 0.001, positive: true });
  return {
    ...depth,
    read: (text) => (innerDiameterM === undefined ? wrong(words.dipNeedsPot) : depth.read(text)),
    amount: (depthM) => ({ volumeL: dippedLitres(depthM, innerDiameterM ?? 0) }),
  };
}

type Amount = Pick<Weighing, 'massKg' | 'tareKg' | 'volumeL'>;

/** What is known of a field, as its entries; a refused entry is shown again. */
export function knownDraft({ shown }: WeighField, { lidStayedOn }: Pick<WeighContext, 'lidStayedOn'>): WeighDraft {
  const known = shown?.refusal?.typed ?? shown?.thing;
  return {
    measured: known?.volumeL === undefined ? 'mass' : 'volume',
    amount: known?.volumeL === undefined ? typed('mass', grossKg(known)) : typed('volume', known.volumeL),
    temp: known?.tempC === undefined ? '' : tempField().write(known.tempC),
    lidOn: known?.lidOn ?? lidStayedOn,
    inContainer: known?.tareKg !== undefined,
    isLater: known?.pending ?? false,
    moisture: moistureDraft(known?.moisture),
  };
}

function grossKg(known: Weighing | undefined): number | undefined {
  return known?.massKg === undefined ? undefined : known.massKg + (known.tareKg ?? 0);
}

export function readWeighing(field: WeighField, draft: WeighDraft, context: WeighContext): ReadWeighing {
  const { of, when, lot, shown } = field;
  const known = shown?.refusal?.typed ?? shown?.thing;
  const asKnown = knownDraft(field, context);
  const {
    massKg: _m,
    tareKg: _tare,
    volumeL: _v,
    pending: _p,
    tempC: _t,
    lidOn: _l,
    moisture: _moisture,
    ...rest
  } = known ?? {
    id: uuid7(),
    of,
    when,
    ...(lot && { fuelLotId: lot.id }),
  };
  if (draft.isLater) return { ok: true, weighing: { ...rest, pending: true } };
  const isBlank = draft.amount.trim() === '';
  const wantsTemp = of === 'water' && draft.temp.trim() !== '';
  if (isBlank && (of !== 'water' || draft.temp === asKnown.temp || !wantsTemp))
    return { ok: true, weighing: undefined };
  const isAsKnown = draft.amount === asKnown.amount && draft.measured === asKnown.measured;
  const amount = isAsKnown && known && !isBlank ? knownAmount(known) : readAmount(draft, context);
  const temp = wantsTemp ? tempField().read(draft.temp) : undefined;
  const tare = draft.inContainer && draft.measured === 'mass' ? containerOf(field, context) : undefined;
  const moisture = readMoisture(field, draft, asKnown, known?.moisture);
  const net = amount.ok && tare?.ok ? netOf(amount.value, tare.value) : amount;
  if (!net.ok || (temp && !temp.ok) || (tare && !tare.ok) || !moisture.ok)
    return {
      ok: false,
      problems: {
        ...(!net.ok && { amount: net.problem }),
        ...(temp && !temp.ok && { temp: temp.problem }),
        ...(tare && !tare.ok && { bucket: tare.problem }),
        ...(!moisture.ok && { moisture: moisture.problems }),
      },
    };
  return {
    ok: true,
    weighing: {
      ...rest,
      ...net.value,
      ...(temp?.ok && { tempC: draft.temp === asKnown.temp && known?.tempC !== undefined ? known.tempC : temp.value }),
      ...(of === 'water' && when === 'end' && { lidOn: draft.lidOn }),
      ...(moisture.value && { moisture: moisture.value }),
    },
  };
}

/** Only half-burnt wood has a moisture of its own; an unchanged value stays exact. */
function readMoisture(
  { of }: WeighField,
  { moisture }: WeighDraft,
  asKnown: WeighDraft,
  known: Moisture | undefined,
): ReturnType<typeof moistureOf> {
  if (of !== 'brands') return { ok: true, value: undefined };
  return moistureOf(moisture, moisture.moisture === asKnown.moisture.moisture ? known : undefined);
}

/** Water is weighed in its pot where that has a known mass; everything else in the bucket. */
function containerOf({ of }: WeighField, { bucket, potKg }: WeighContext): Entry<number> {
  return of === 'water' && potKg !== undefined ? right(potKg) : bucket;
}

/** An unchanged value stays exact, whatever precision the field shows. */
function knownAmount(known: Weighing): Entry<Amount> {
  if (known.volumeL !== undefined) return right({ volumeL: known.volumeL });
  return right({ massKg: grossKg(known) ?? 0 });
}

function netOf(gross: Amount, tareKg: number): Entry<Amount> {
  // To the milligram: 4.35 − 0.85 must be 3.5.
  const massKg = Math.round(((gross.massKg ?? 0) - tareKg) * 1e6) / 1e6;
  return massKg < 0 ? wrong(translate().burns.wrap.lighterThanContainer) : right({ massKg, tareKg });
}

function readAmount({ measured, amount }: WeighDraft, { innerDiameterM }: WeighContext): Entry<Amount> {
  const field = amountField(measured, innerDiameterM);
  const entry = field.read(amount);
  return entry.ok ? right(field.amount(entry.value)) : entry;
}
