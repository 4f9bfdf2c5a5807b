/**
 * Refuses entries that are certainly impossible. Entries that are merely unlikely are saved, and the analysis adds a
 * remark.
 */
import { readingLimits } from '../../shared/analysis/reading-limits.ts';
import type { Channel } from '../../shared/contract/burn-record.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';
import { AppError } from '../base/app-error.ts';
import { isReadAsMarks } from '../records/hand-readings.ts';

/**
 * Water at its densest and at the boil, kg/L (IAPWS, rounded outwards): bounds for a volume whose temperature may be
 * unknown.
 */
const MOST_KG_PER_L = 1.0;
const LEAST_KG_PER_L = 0.95;

/** @throws AppError mark/unknown-channel, mark/not-hand-read, mark/reading-impossible */
export function refuseReading(channels: readonly Channel[], mark: Extract<Mark, { kind: 'reading' }>): void {
  const channel = channels.find(({ id }) => id === mark.channelId);
  if (!channel) throw new AppError('mark/unknown-channel', { id: mark.channelId });
  const { name, unit } = channel;
  if (!isReadAsMarks(channel)) throw new AppError('mark/not-hand-read', { name });
  const { low, high } = readingLimits(channel);
  if (mark.value < low || mark.value > high)
    throw new AppError('mark/reading-impossible', { name, value: mark.value, unit, low, high });
}

/** @throws AppError weighing/... when the weighing contradicts itself */
export function refuseContradiction(weighing: Weighing): void {
  const { of, massKg, volumeL, moisture, pending } = weighing;
  if (volumeL !== undefined && of !== 'water') throw new AppError('weighing/volume-not-water');
  if (moisture && of !== 'brands') throw new AppError('weighing/moisture-not-brands');
  if (massKg !== undefined && volumeL !== undefined) throw new AppError('weighing/two-amounts');
  const known = massKg !== undefined || volumeL !== undefined;
  if (pending && known) throw new AppError('weighing/pending-with-mass');
  if (!pending && !known) throw new AppError('weighing/mass-missing');
}

/**
 * Compares what is left with what was brought, over all entries of the burn. Does nothing while either side is unknown.
 * @throws AppError weighing/more-fuel-left, weighing/more-water-left
 */
export function refuseMoreLeft(weighings: readonly Weighing[], marks: readonly Mark[]): void {
  refuseMoreFuelLeft(weighings, marks);
  refuseMoreWaterLeft(weighings, marks);
}

function refuseMoreFuelLeft(weighings: readonly Weighing[], marks: readonly Mark[]): void {
  for (const lot of new Set(weighings.map((weighing) => weighing.fuelLotId))) {
    const ofLot = weighings.filter(({ of, fuelLotId }) => of === 'fuelPile' && fuelLotId === lot);
    const at = { of: 'fuelPile', ...(lot !== undefined && { fuelLotId: lot }) } as const;
    compare('weighing/more-fuel-left', most(ofLot, 'start'), least(ofLot, 'end'), at);
  }
  const startKg = weighings.filter(({ of, when }) => when === 'start' && (of === 'fuelPile' || of === 'char'));
  const left = weighings.filter(
    ({ of, when }) => when === 'end' && (of === 'fuelPile' || of === 'brands' || of === 'char'),
  );
  if (!startKg.some(({ of, massKg }) => of === 'fuelPile' && massKg !== undefined)) return;
  // A feed may have come from a pile that was not weighed, so every such feed is added to what was brought.
  const weighedLots = new Set(startKg.map(({ fuelLotId }) => fuelLotId));
  const fedKg = marks.reduce(
    (sum, mark) => (mark.kind === 'fed' && !weighedLots.has(mark.fuelLotId) ? sum + (mark.massKg ?? 0) : sum),
    0,
  );
  compare('weighing/more-fuel-left', most(startKg, 'start') + fedKg, least(left, 'end'), { of: 'fuelPile' });
}

function refuseMoreWaterLeft(weighings: readonly Weighing[], marks: readonly Mark[]): void {
  const water = weighings.filter(({ of }) => of === 'water');
  if (!water.some(({ when, massKg, volumeL }) => when === 'start' && (massKg ?? volumeL) !== undefined)) return;
  let addedKg = 0;
  for (const mark of marks) {
    // Goods may be wet when added; the water that drips off is less than their mass.
    if (mark.kind === 'waterIn' || mark.kind === 'goodsIn') addedKg += mark.massKg;
    if (mark.kind === 'waterOut') addedKg -= mark.massKg;
  }
  compare('weighing/more-water-left', most(water, 'start') + addedKg, least(water, 'end'), { of: 'water' });
}

function compare(
  code: 'weighing/more-fuel-left' | 'weighing/more-water-left',
  startKg: number,
  leftKg: number,
  /** Which weighing at the end is too heavy: a form shows the message next to it. */
  at: Pick<Weighing, 'of' | 'fuelLotId'>,
): void {
  // Two sums of the same decimals may differ in their last bit.
  if (startKg > 0 && leftKg > startKg * (1 + 1e-9))
    throw new AppError(code, { leftKg, broughtKg: startKg }, { details: { at: { ...at, when: 'end' } } });
}

const most = (weighings: readonly Weighing[], when: Weighing['when']) => sumKg(weighings, when, MOST_KG_PER_L);
const least = (weighings: readonly Weighing[], when: Weighing['when']) => sumKg(weighings, when, LEAST_KG_PER_L);

function sumKg(weighings: readonly Weighing[], when: Weighing['when'], kgPerL: number): number {
  return weighings
    .filter((weighing) => weighing.when === when)
    .reduce((sum, { massKg, volumeL }) => sum + (massKg ?? (volumeL ?? 0) * kgPerL), 0);
}
