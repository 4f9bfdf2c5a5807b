/**
 * Mass of each lot that went into the fire. The pile before less the pile after is used where it exists, else the feed
 * marks.
 */
import type { BurnRecord, FuelLot } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import { marksOf } from '../curves/fire-moments.ts';
import { bestOfSum, type Input, type Sum } from '../engine/declaration.ts';
import { byDefault, missing, remark } from '../messages/messages.ts';
import { fact } from './declare.ts';
import { brandsMoisture, type LotFuel, lotFuel, lotNamed } from './fuel-lots.ts';
import { type ScaleReading, weighedSum, weighingReading } from './masses.ts';
import { feedsContradictPile } from './pile-and-feeds.ts';

export interface LotMass {
  readonly fuel: LotFuel;
  readonly carriedKg: Sum;
  /** Half-burnt pieces that were taken out again and weighed. */
  readonly brandsKg: Sum;
  /** Moisture of these pieces, wet basis, where it was measured. */
  readonly brandsMoisture: Input | undefined;
}

export interface FuelMasses {
  readonly lots: readonly LotMass[];
  /** The wood lot of which most was burnt; any lot when there is no wood. */
  readonly main: LotMass;
  readonly burntKg: number;
  readonly remarks: readonly Message[];
  readonly defaults: readonly Message[];
}

type FoundMasses =
  | { readonly missing: Message; readonly found?: undefined }
  | { readonly missing?: undefined; readonly found: FuelMasses };

/** A mass, undefined (the lot was not used), or why it is missing; with the remarks in either case. */
interface Weighed {
  readonly kg?: Sum | undefined;
  readonly missing?: Message;
  readonly remarks?: readonly Message[];
  readonly defaults?: readonly Message[];
}

const NOTHING: Sum = { constant: 0, terms: [] };

export const fuelMasses = fact('masses of the fuel', [], ({ subject }): FoundMasses => {
  const weighed = subject.fuelLots.map((lot) => ({
    lot,
    carried: carriedToFire(subject, lot),
    brands: brandsOf(subject, lot),
  }));
  const used = weighed.filter(({ carried }) => carried.kg);
  const lots = used.map(({ lot, carried, brands }) => ({
    fuel: lotFuel(lot),
    carriedKg: carried.kg!,
    brandsKg: brands.kg ?? NOTHING,
    brandsMoisture: brandsMoisture(weighingsOf(subject, lot, 'brands', 'end'), lot.id),
  }));
  // Half-burnt pieces of a lot that was not used are not required.
  const why = weighed.map(({ carried, brands }) => carried.missing ?? (carried.kg && brands.missing)).find(Boolean);
  const main = mainLot(lots);
  if (why || !main) return { missing: why || missing('fuelNotWeighed', { lot: '' }) };
  const burntKg = lots.reduce((sum, lot) => sum + bestOfSum(lot.carriedKg) - bestOfSum(lot.brandsKg), 0);
  if (burntKg <= 0) {
    return { missing: missing('moreFuelLeftThanBrought', { kg: -burntKg, lot: main.fuel.lot.name }) };
  }
  return {
    found: {
      lots,
      main,
      burntKg,
      remarks: weighed.flatMap(({ carried }) => carried.remarks ?? []),
      defaults: weighed.flatMap(({ carried }) => carried.defaults ?? []),
    },
  };
});

function mainLot(lots: readonly LotMass[]): LotMass | undefined {
  const woods = lots.filter(({ fuel }) => fuel.lot.kind === 'wood');
  return (woods.length > 0 ? woods : lots).reduce<LotMass | undefined>(
    (best, lot) => (best && best.carriedKg.constant >= lot.carriedKg.constant ? best : lot),
    undefined,
  );
}

function weighingsOf(record: BurnRecord, lot: FuelLot, of: 'fuelPile' | 'brands', when: 'start' | 'end') {
  return record.weighings.filter(
    (weighing) => weighing.of === of && weighing.when === when && lotNamed(record, weighing.fuelLotId)?.id === lot.id,
  );
}

function readingsOf(weighings: ReturnType<typeof weighingsOf>, sign: 1 | -1): ScaleReading[] {
  return weighings.flatMap((weighing) => weighingReading(weighing, sign) ?? []);
}

function feedReadings(
  record: BurnRecord,
  lot: FuelLot,
): { readings: ScaleReading[]; fedCount: number; isComplete: boolean } {
  const isOfLot = ({ fuelLotId }: { fuelLotId?: string | undefined }) => lotNamed(record, fuelLotId)?.id === lot.id;
  const fed = marksOf(record, 'fed').filter(isOfLot);
  const out = marksOf(record, 'logOut').filter(isOfLot);
  const signed = [
    ...fed.map((mark) => ({ mark, sign: 1 as const })),
    ...out.map((mark) => ({ mark, sign: -1 as const })),
  ];
  const readings = signed.flatMap(({ mark: { massKg, scaleId }, sign }) =>
    massKg === undefined ? [] : [{ what: 'fuelPile', sign, kg: massKg, scaleId }],
  );
  return { readings, fedCount: fed.length, isComplete: readings.length === signed.length };
}

function carriedToFire(record: BurnRecord, lot: FuelLot): Weighed {
  const before = weighingsOf(record, lot, 'fuelPile', 'start');
  const after = weighingsOf(record, lot, 'fuelPile', 'end');
  const feeds = feedReadings(record, lot);
  const where = { lot: lot.name };
  const isPending = [...before, ...after].some((weighing) => weighing.massKg === undefined);
  if (before.length > 0 && after.length > 0 && !isPending) {
    const readings = [...readingsOf(before, 1), ...readingsOf(after, -1)];
    const kg = weighedSum(record, 'fuelPile', readings, lot.id);
    if (kg.constant < 0) return { kg, missing: missing('moreFuelLeftThanBrought', { kg: -kg.constant, ...where }) };
    return { kg, remarks: feedRemarks(kg.constant, feeds, where) };
  }
  if (feeds.readings.length > 0 && feeds.isComplete) {
    return { kg: weighedSum(record, 'feeds', feeds.readings, lot.id), remarks: [remark('fuelFromFeeds', where)] };
  }
  const burnsUp = lot.kind === 'kindling' || lot.kind === 'firelighter';
  if (before.length > 0 && after.length === 0 && burnsUp && !isPending) {
    const kg = weighedSum(record, 'fuelPile', readingsOf(before, 1), lot.id);
    return { kg, defaults: [byDefault('kindlingAllBurnt', where)] };
  }
  if (before.length === 0 && feeds.fedCount === 0) {
    return { remarks: burnsUp ? [remark('lotWithoutMass', where)] : [] };
  }
  return { missing: missing(isPending ? 'fuelPending' : 'fuelNotWeighed', where) };
}

function feedRemarks(pileKg: number, feeds: ReturnType<typeof feedReadings>, where: { lot: string }): Message[] {
  if (feeds.fedCount === 0) return [];
  if (!feeds.isComplete) return [remark('unweighedFeeds', where)];
  const feedsKg = feeds.readings.reduce((sum, { kg, sign }) => sum + sign * kg, 0);
  return feedsContradictPile(pileKg, feedsKg, true)
    ? [remark('feedsDisagreeWithPile', { ...where, feedsKg, pileKg })]
    : [];
}

function brandsOf(record: BurnRecord, lot: FuelLot): Weighed {
  const weighings = weighingsOf(record, lot, 'brands', 'end');
  if (weighings.length === 0) return {};
  if (weighings.some((weighing) => weighing.massKg === undefined)) {
    return { missing: missing('fuelPending', { lot: lot.name }) };
  }
  return { kg: weighedSum(record, 'brands', readingsOf(weighings, 1), lot.id) };
}
