/**
 * Fuel burnt in an inner window. Fuel is weighed before and after the whole burn; what lies in the firebox at an inner edge is known
 * only to about one charge: embers of earlier charges and what is left of the last one, taken as burning down evenly since it was fed,
 * uncertain by charge/√12; unless the stove stands on a scale. How much the embers hold is a guess on top of that, and carried as one.
 */

import type { BurnRecord } from '../../contract/burn-record.ts';
import { median } from '../../statistics/quantile.ts';
import { type FoundMoment, marksOf } from '../curves/fire-moments.ts';
import { missing, remark } from '../engine/messages.ts';
import type { Draw, Model } from '../engine/model.ts';
import type { QuantityName } from '../engine/quantities.ts';
import { lotNamed } from './fuel-lots.ts';
import type { Hold } from './hold.ts';
import type { BurntOnScale, StoveScale } from './stove-scale.ts';

/** The edge term may be this share of the value; beyond it the result is refused (bench-1 definition). */
const LARGEST_SHARE = 1 / 3;
/** Embers of earlier charges when a new one is put on, as a share of it ("common practice, no source"). */
const EMBERS_SHARE = 0.7;
/** Char counts for this much wood: 29.5 over 18.6 MJ/kg. */
const WOOD_PER_CHAR = 1.6;
/** A hold that ends this close to fire out ends with the fire raked and weighed. */
const RAKED_WITHIN_S = 300;

interface Feed {
  readonly atS: number;
  readonly kg: number;
}

export function defineInnerFuel(
  record: BurnRecord,
  moments: { lit: FoundMoment | undefined; target: FoundMoment | undefined; fireOut: FoundMoment | undefined },
  hold: Hold | undefined,
  onScale: StoveScale | undefined,
  model: Model,
): void {
  const names = ['fuelToTargetKg', 'fuelInHoldKg'] as const;
  const marks = marksOf(record, 'fed');
  if (marks.length === 0 || marks.some(({ massKg }) => massKg === undefined)) {
    model.markMissing(names, missing('feedsNotWeighed'));
    return;
  }
  const feeds: Feed[] = [
    ...marks.map((mark) => ({ atS: mark.elapsedUs / 1e6, kg: mark.massKg! })),
    ...unmarkedKindling(record, moments.lit),
  ];
  const { lit, target, fireOut } = moments;
  if (!lit || !target) {
    model.markMissing(names, model.missing.get('litToTargetS') ?? missing('targetNotReached'));
    return;
  }

  const atTarget = edge('firebox.target', target.elapsedS);
  const fedBeforeKg = fedBetween(Number.NEGATIVE_INFINITY, target.elapsedS);
  const fedAfterLitKg = fedBetween(lit.elapsedS, target.elapsedS);
  if (!defineWeighed('fuelToTargetKg', onScale?.(lit.elapsedS, target.elapsedS, fedAfterLitKg))) {
    defineWindow('fuelToTargetKg', fedBeforeKg, undefined, atTarget);
  }
  if (!hold) return;
  const fedInHoldKg = fedBetween(hold.start.elapsedS, hold.end.elapsedS);
  if (defineWeighed('fuelInHoldKg', onScale?.(hold.start.elapsedS, hold.end.elapsedS, fedInHoldKg))) return;
  const atStart =
    Math.abs(hold.start.elapsedS - target.elapsedS) < 1 ? atTarget : edge('firebox.holdStart', hold.start.elapsedS);
  const raked = fireOut !== undefined && fireOut.elapsedS - hold.end.elapsedS < RAKED_WITHIN_S;
  const atEnd = (raked ? rakedOut(record) : undefined) ?? edge('firebox.holdEnd', hold.end.elapsedS);
  defineWindow('fuelInHoldKg', fedInHoldKg, atStart, atEnd);

  function fedBetween(fromS: number, toS: number): number {
    return feeds.reduce((sum, { atS, kg }) => (atS > fromS && atS <= toS ? sum + kg : sum), 0);
  }

  function edge(name: string, atS: number): Edge {
    const before = feeds.filter((feed) => feed.atS <= atS).sort((a, b) => a.atS - b.atS);
    const last = before.at(-1);
    if (!last) return { kg: 0, u: 0, of: () => 0 };
    const usualS = medianInterval(before.map((feed) => feed.atS)) ?? 900;
    const kg = last.kg * (EMBERS_SHARE + Math.max(0, 1 - (atS - last.atS) / usualS));
    const u = last.kg / Math.sqrt(12);
    // Of the embers no more is known than that there are some: from none to twice the usual.
    const error = model.ownError(name, Math.hypot(u, (EMBERS_SHARE * last.kg) / Math.sqrt(3)));
    return { kg, u, of: (draw) => Math.max(0, kg + draw[error]!) };
  }

  /** Whether the scale under the stove told. */
  function defineWeighed(name: 'fuelToTargetKg' | 'fuelInHoldKg', burnt: BurntOnScale | undefined): boolean {
    if (!burnt) return false;
    model.remark(name, remark('stoveOnScale', { standardUncertaintyKg: burnt.u, kg: burnt.kg }));
    refuseVague(name, burnt);
    model.define((draw, quantities) => {
      quantities[name] = Math.max(0, burnt.of(draw, quantities.evaporatedKg));
    });
    return true;
  }

  function refuseVague(name: QuantityName, { kg, u }: { kg: number; u: number }): void {
    if (kg > 0 && u <= LARGEST_SHARE * kg) return;
    model.markMissing(name, missing('fireboxUnknown', { standardUncertaintyKg: u, kg }));
  }

  function defineWindow(
    name: 'fuelToTargetKg' | 'fuelInHoldKg',
    fedKg: number,
    start: Edge | undefined,
    end: Edge | undefined,
  ): void {
    const kg = fedKg + (start?.kg ?? 0) - (end?.kg ?? 0);
    const u = Math.hypot(start?.u ?? 0, end?.u ?? 0);
    model.remark(name, remark('firebox', { standardUncertaintyKg: u, kg }));
    refuseVague(name, { kg, u });
    model.define((draw, quantities) => {
      quantities[name] = Math.max(0, fedKg + (start?.of(draw) ?? 0) - (end?.of(draw) ?? 0));
    });
  }
}

interface Edge {
  readonly kg: number;
  readonly u: number;
  readonly of: (draw: Draw) => number;
}

/** What was raked out and weighed, as wood. */
function rakedOut(record: BurnRecord): Edge | undefined {
  const weighed = record.weighings.filter(({ of, when }) => (of === 'brands' || of === 'char') && when === 'end');
  if (weighed.length === 0 || weighed.some(({ massKg }) => massKg === undefined)) return undefined;
  const kg = weighed.reduce((sum, { of, massKg }) => sum + (of === 'char' ? WOOD_PER_CHAR : 1) * massKg!, 0);
  return { kg, u: 0, of: () => kg };
}

/** Kindling and firelighter that were weighed as a pile and never marked as fed went in when the fire was lit. */
function unmarkedKindling(record: BurnRecord, lit: FoundMoment | undefined): Feed[] {
  if (!lit) return [];
  return record.fuelLots.flatMap((lot) => {
    if (lot.kind !== 'kindling' && lot.kind !== 'firelighter') return [];
    if (marksOf(record, 'fed').some((mark) => mark.fuelLotId === lot.id)) return [];
    let kg = 0;
    for (const weighing of record.weighings) {
      if (weighing.of !== 'fuelPile' || lotNamed(record, weighing.fuelLotId)?.id !== lot.id) continue;
      kg += (weighing.when === 'start' ? 1 : -1) * (weighing.massKg ?? 0);
    }
    return kg > 0 ? [{ atS: lit.elapsedS, kg }] : [];
  });
}

function medianInterval(timesS: readonly number[]): number | undefined {
  const intervals = timesS.slice(1).map((atS, index) => atS - timesS[index]!);
  return intervals.length > 0 ? median(intervals) : undefined;
}
