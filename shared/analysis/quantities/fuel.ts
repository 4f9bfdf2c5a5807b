/** Fuel burnt and char left, as mass and as net heat. The pile before less the pile after is primary; feed marks stand in for it. */
import type { BurnRecord, FuelLot } from '../../contract/burn-record.ts';
import { WATER_IN_FUEL_MJ_PER_KG } from '../../physics/fuel.ts';
import { marksOf } from '../curves/fire-moments.ts';
import { byDefault, missing, remark } from '../engine/messages.ts';
import type { Model } from '../engine/model.ts';
import { charMJPerKg, type LotFuel, lotFuel, lotNamed } from './fuel-lots.ts';
import { type Mass, type ScaleReading, type Scales, weighingReading } from './masses.ts';
import { feedsContradictPile } from './pile-and-feeds.ts';

const FUEL_NAMES = ['fuelKg', 'fuelMJ', 'dryMJPerKg', 'meanDryMJPerKg', 'moistureWet'] as const;
const CHAR_NAMES = ['charKg', 'charMJ', 'charMJPerKg'] as const;
/** Char goes on burning between raking out and weighing: up to this much (tens of grams; common practice, no source). */
const BURNS_ON_KG = 0.04;
/** Char still to be weighed lies between nothing and this share of the fuel burnt ("common practice, no source"). */
const PENDING_CHAR_SHARE = 0.1;

interface LotMass {
  readonly fuel: LotFuel;
  readonly carried: Mass;
  readonly brands: Mass | undefined;
}

export function defineFuel(record: BurnRecord, scales: Scales, model: Model): void {
  const masses: LotMass[] = [];
  for (const lot of record.fuelLots) {
    const carried = carriedToFire(record, lot, scales, model);
    if (carried) masses.push({ fuel: lotFuel(lot, model), carried, brands: brandsOf(record, lot, scales, model) });
  }
  const main = mainLot(masses);
  const burntKg = masses.reduce((sum, { carried, brands }) => sum + carried.kg - (brands?.kg ?? 0), 0);
  if (!main) {
    model.markMissing([...FUEL_NAMES, ...CHAR_NAMES], missing('fuelNotWeighed', { lot: '' }));
    return;
  }
  if (burntKg <= 0) {
    model.markMissing(
      [...FUEL_NAMES, ...CHAR_NAMES],
      missing('moreFuelLeftThanBrought', { kg: -burntKg, lot: main.fuel.lot.name }),
    );
  }
  for (const { fuel, carried, brands } of masses) {
    for (const used of [...fuel.defaults, ...carried.defaults, ...(brands?.defaults ?? [])])
      model.setDefault('fuelMJ', used);
  }
  for (const used of main.fuel.defaults) model.setDefault('dryMJPerKg', used);
  defineLotsFuel(masses, main, model);
  defineChar(record, masses, main, burntKg, scales, model);
  const best = model.evaluate(model.bestEstimate());
  if (best.fuelMJ <= 0) model.markMissing(FUEL_NAMES, missing('fuelTooWet', { moistureWet: best.moistureWet }));
  else if (model.isKnown('charMJ') && best.charMJ >= best.fuelMJ) {
    model.markMissing(CHAR_NAMES, missing('charExceedsFuel', { charMJ: best.charMJ, fuelMJ: best.fuelMJ }));
  }
}

/** The wood lot of which most was burnt; any lot when there is no wood. */
function mainLot(masses: readonly LotMass[]): LotMass | undefined {
  const woods = masses.filter(({ fuel }) => fuel.lot.kind === 'wood');
  return (woods.length > 0 ? woods : masses).reduce<LotMass | undefined>(
    (best, mass) => (best && best.carried.kg >= mass.carried.kg ? best : mass),
    undefined,
  );
}

function weighingsOf(record: BurnRecord, lot: FuelLot, of: 'fuelPile' | 'brands', when: 'start' | 'end') {
  return record.weighings.filter(
    (weighing) => weighing.of === of && weighing.when === when && lotNamed(record, weighing.fuelLotId)?.id === lot.id,
  );
}

function readingsOf(weighings: ReturnType<typeof weighingsOf>, sign: 1 | -1): ScaleReading[] {
  return weighings.flatMap((weighing) => weighingReading(weighing, sign)?.reading ?? []);
}

/** Mass of one lot that went into the fire. `undefined` when the lot was not used, or when that cannot be known (then said). */
function carriedToFire(record: BurnRecord, lot: FuelLot, scales: Scales, model: Model): Mass | undefined {
  const before = weighingsOf(record, lot, 'fuelPile', 'start');
  const after = weighingsOf(record, lot, 'fuelPile', 'end');
  const fed = marksOf(record, 'fed').filter((mark) => lotNamed(record, mark.fuelLotId)?.id === lot.id);
  const out = marksOf(record, 'logOut').filter((mark) => lotNamed(record, mark.fuelLotId)?.id === lot.id);
  const feeds: ScaleReading[] = [
    ...fed.flatMap((mark) =>
      mark.massKg === undefined ? [] : [{ what: 'fuelPile', sign: 1 as const, kg: mark.massKg, scaleId: mark.scaleId }],
    ),
    ...out.flatMap((mark) =>
      mark.massKg === undefined
        ? []
        : [{ what: 'fuelPile', sign: -1 as const, kg: mark.massKg, scaleId: mark.scaleId }],
    ),
  ];
  const allWeighed = feeds.length === fed.length + out.length;
  const pending = [...before, ...after].some((weighing) => weighing.massKg === undefined);
  if (before.length > 0 && after.length > 0 && !pending) {
    const pile = scales.sum('fuelPile', [...readingsOf(before, 1), ...readingsOf(after, -1)]);
    if (pile.kg < 0)
      model.markMissing(
        [...FUEL_NAMES, ...CHAR_NAMES],
        missing('moreFuelLeftThanBrought', { kg: -pile.kg, lot: lot.name }),
      );
    if (fed.length > 0 && allWeighed) reconcile(pile.kg, sumOf(feeds), lot, model);
    else if (fed.length > 0) model.remark('fuelMJ', remark('unweighedFeeds', { lot: lot.name }));
    return pile;
  }
  if (feeds.length > 0 && allWeighed) {
    model.remark('fuelMJ', remark('fuelFromFeeds', { lot: lot.name }));
    return scales.sum('feeds', feeds);
  }
  const burnsUp = lot.kind === 'kindling' || lot.kind === 'firelighter';
  if (before.length > 0 && after.length === 0 && burnsUp && !pending) {
    model.setDefault('fuelMJ', byDefault('kindlingAllBurnt', { lot: lot.name }));
    return scales.sum('fuelPile', readingsOf(before, 1));
  }
  if (before.length === 0 && fed.length === 0) {
    if (burnsUp) model.remark('fuelMJ', remark('lotWithoutMass', { lot: lot.name }));
    return undefined;
  }
  model.markMissing(
    [...FUEL_NAMES, ...CHAR_NAMES],
    missing(pending ? 'fuelPending' : 'fuelNotWeighed', { lot: lot.name }),
  );
  return undefined;
}

function sumOf(readings: readonly ScaleReading[]): number {
  return readings.reduce((sum, { kg, sign }) => sum + sign * kg, 0);
}

function reconcile(pileKg: number, feedsKg: number, lot: FuelLot, model: Model): void {
  if (feedsContradictPile(pileKg, feedsKg, true)) {
    model.remark('fuelMJ', remark('feedsDisagreeWithPile', { lot: lot.name, feedsKg, pileKg }));
  }
}

function brandsOf(record: BurnRecord, lot: FuelLot, scales: Scales, model: Model): Mass | undefined {
  const weighings = weighingsOf(record, lot, 'brands', 'end');
  if (weighings.length === 0) return undefined;
  if (weighings.some((weighing) => weighing.massKg === undefined)) {
    model.markMissing([...FUEL_NAMES, ...CHAR_NAMES], missing('fuelPending', { lot: lot.name }));
    return undefined;
  }
  return scales.sum('brands', readingsOf(weighings, 1));
}

function defineLotsFuel(masses: readonly LotMass[], main: LotMass, model: Model): void {
  const anyBrands = masses.some(({ brands }) => brands !== undefined && brands.kg > 0);
  // Brands have lost some of their water: anything from all of it to none.
  const drying = anyBrands
    ? model.input({
        name: 'brands.moistureLeft',
        value: 0.5,
        standardUncertainty: 0.5 / Math.sqrt(3),
        distribution: 'rectangular',
        sharing: 'none',
      })
    : undefined;
  if (anyBrands) model.setDefault('fuelMJ', byDefault('brandsMoisture'));
  model.define((draw, quantities) => {
    let fuelKg = 0;
    let fuelMJ = 0;
    let waterKg = 0;
    let dryMJ = 0;
    for (const { fuel, carried, brands } of masses) {
      const kg = carried.of(draw);
      const moisture = fuel.moistureWet(draw);
      const dryMJPerKg = fuel.dryMJPerKg(draw);
      fuelKg += kg;
      fuelMJ += kg * asFired(dryMJPerKg, moisture);
      waterKg += kg * moisture;
      dryMJ += kg * (1 - moisture) * dryMJPerKg;
      if (brands && drying !== undefined) {
        const brandsKg = brands.of(draw);
        fuelKg -= brandsKg;
        fuelMJ -= brandsKg * asFired(dryMJPerKg, draw[drying]! * moisture);
        waterKg -= brandsKg * moisture;
        dryMJ -= brandsKg * (1 - moisture) * dryMJPerKg;
      }
    }
    quantities.fuelKg = fuelKg;
    quantities.fuelMJ = fuelMJ;
    quantities.moistureWet = waterKg / fuelKg;
    quantities.dryMJPerKg = main.fuel.dryMJPerKg(draw);
    quantities.meanDryMJPerKg = dryMJ / (fuelKg - waterKg);
  });
}

/** Net heating value as received, MJ/kg, without the range checks that a Monte Carlo draw does not need. */
function asFired(dryMJPerKg: number, moistureWet: number): number {
  return dryMJPerKg * (1 - moistureWet) - WATER_IN_FUEL_MJ_PER_KG * moistureWet;
}

function defineChar(
  record: BurnRecord,
  masses: readonly LotMass[],
  main: LotMass,
  burntKg: number,
  scales: Scales,
  model: Model,
): void {
  const worth = charMJPerKg(main.fuel.lot, model);
  for (const used of worth.defaults) model.setDefault('charMJ', used);
  const weighed = record.weighings.filter(({ of }) => of === 'char');
  const end = weighed.filter(({ when }) => when === 'end');
  const start = scales.sum(
    'oldChar',
    weighed.filter(({ when }) => when === 'start').flatMap((weighing) => weighingReading(weighing, 1)?.reading ?? []),
  );
  const leavesChar = masses.some(({ fuel }) => fuel.lot.kind !== 'gas' && fuel.lot.kind !== 'firelighter');
  if (end.length === 0 && leavesChar) {
    model.markMissing(CHAR_NAMES, missing('charNotWeighed'));
    return;
  }
  if (end.some((weighing) => weighing.massKg === undefined)) {
    const pending = model.input({
      name: 'char.pending',
      value: (PENDING_CHAR_SHARE / 2) * burntKg,
      standardUncertainty: ((PENDING_CHAR_SHARE / 2) * burntKg) / Math.sqrt(3),
      distribution: 'rectangular',
      sharing: 'none',
    });
    model.remark('charMJ', remark('charPending', { mostKg: PENDING_CHAR_SHARE * burntKg }));
    defineChar((draw) => draw[pending]!);
    return;
  }
  const left = scales.sum(
    'char',
    end.flatMap((weighing) => weighingReading(weighing, 1)?.reading ?? []),
  );
  for (const used of left.defaults) model.setDefault('charMJ', used);
  const stated = end.every((weighing) => weighing.standardUncertaintyKg !== undefined);
  if (stated || left.kg === 0) {
    defineChar(left.of);
    return;
  }
  const burntOn = model.ownError('char.burnsOn', BURNS_ON_KG / Math.sqrt(12), 'oneSided');
  model.setDefault('charMJ', byDefault('charBurnsOn', { mostKg: BURNS_ON_KG }));
  defineChar((draw) => left.of(draw) + draw[burntOn]!);

  function defineChar(leftKg: (draw: Float64Array) => number): void {
    model.define((draw, quantities) => {
      quantities.charMJPerKg = worth.of(draw);
      quantities.charKg = leftKg(draw) - start.of(draw);
      quantities.charMJ = quantities.charKg * quantities.charMJPerKg;
    });
  }
}
