/**
 * Fuel burnt in an inner window. Fuel is weighed before and after the whole burn; the fuel in the firebox at an inner
 * edge is known only to about one charge: embers of earlier charges and the rest of the last one, assumed to burn down
 * linearly since it was fed, with the uncertainty charge/√12; unless the stove is on a scale. The amount of embers is a
 * guess with an uncertainty of its own.
 */
import type { BurnRecord } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import { median } from '../../statistics/quantile.ts';
import { type FoundMoment, marksOf } from '../curves/fire-moments.ts';
import { each } from '../engine/columns.ts';
import { type Found, type Input, ownError, type Sum } from '../engine/declaration.ts';
import { missing, remark } from '../messages/messages.ts';
import { fireOut, lit } from './burn-curves.ts';
import { type BurnQuantity, fact, type GivenBurn, quantity } from './declare.ts';
import { evaporatedKg } from './evaporated-water.ts';
import { lotNamed } from './fuel-lots.ts';
import { foundHold, holdWindowS } from './hold.ts';
import { type BurntOnScale, stoveScale } from './stove-scale.ts';
import { foundTarget, litToTargetS } from './target.ts';

/** The edge term may be this share of the value; beyond it the result is refused (bench-1 definition). */
const LARGEST_SHARE = 1 / 3;
/** Embers of earlier charges when a new one is put on, as a share of it ("common practice, no source"). */
const EMBERS_SHARE = 0.7;
/** Char counts for this much wood: 29.5 over 18.6 MJ/kg. */
const WOOD_PER_CHAR = 1.6;
/** A hold that ends within this time, s, of fire out ends with the char raked out and weighed. */
const RAKED_WITHIN_S = 300;

interface Feed {
  readonly atS: number;
  readonly kg: number;
}

/** All feeds with their masses; `undefined` when one was not weighed, or there were none. */
const weighedFeeds = fact('weighed feeds', [lit], (given): readonly Feed[] | undefined => {
  const marks = marksOf(given.subject, 'fed');
  if (marks.length === 0 || marks.some(({ massKg }) => massKg === undefined)) return undefined;
  return [
    ...marks.map((mark) => ({ atS: mark.elapsedUs / 1e6, kg: mark.massKg! })),
    ...unmarkedKindling(given.subject, given.fact(lit)),
  ];
});

function fedBetween(feeds: readonly Feed[], fromS: number, toS: number): number {
  return feeds.reduce((sum, { atS, kg }) => (atS > fromS && atS <= toS ? sum + kg : sum), 0);
}

/** Fuel in the firebox at a moment, as wood: its best estimate and, where it was not weighed, its error. */
interface Edge {
  readonly kg: number;
  readonly u: number;
  readonly error?: Input;
}

function edge(feeds: readonly Feed[], name: string, atS: number): Edge {
  const before = feeds.filter((feed) => feed.atS <= atS).sort((a, b) => a.atS - b.atS);
  const last = before.at(-1);
  if (!last) return { kg: 0, u: 0 };
  const usualS = medianInterval(before.map((feed) => feed.atS)) ?? 900;
  const kg = last.kg * (EMBERS_SHARE + Math.max(0, 1 - (atS - last.atS) / usualS));
  const u = last.kg / Math.sqrt(12);
  // The amount of embers is between zero and twice the usual one.
  return { kg, u, error: ownError(name, Math.hypot(u, (EMBERS_SHARE * last.kg) / Math.sqrt(3))) };
}

export const fuelToTargetKg: BurnQuantity = quantity({
  name: 'fuelToTargetKg',
  symbol: 'm_toTarget',
  unit: 'kg',
  formula: 'fed to the target − what lay in the firebox then',
  source: 'bench-1 definition',
  needs: [weighedFeeds, lit, foundTarget, litToTargetS, stoveScale, evaporatedKg],
  state(given) {
    const window = feedsAndTarget(given);
    if ('missing' in window) return window;
    const { feeds, litS, targetS } = window;
    const onScale = given.fact(stoveScale)?.('toTarget', litS, targetS, fedBetween(feeds, litS, targetS));
    if (onScale) return weighedOnScale(onScale);
    const fedKg = fedBetween(feeds, Number.NEGATIVE_INFINITY, targetS);
    return fromFeeds(fedKg, { kg: 0, u: 0 }, edge(feeds, 'firebox.target', targetS));
  },
});

export const fuelInHoldKg: BurnQuantity = quantity({
  name: 'fuelInHoldKg',
  symbol: 'm_hold',
  unit: 'kg',
  formula: 'fed in the hold + what lay in the firebox at its start − what lay there at its end',
  source: 'bench-1 definition',
  needs: [weighedFeeds, lit, foundTarget, litToTargetS, foundHold, holdWindowS, fireOut, stoveScale, evaporatedKg],
  state(given) {
    const noHold = given.whyMissing(holdWindowS);
    if (noHold) return { missing: noHold };
    const window = feedsAndTarget(given);
    if ('missing' in window) return window;
    const { feeds, targetS } = window;
    const { start, end } = given.fact(foundHold).hold!;
    const fedKg = fedBetween(feeds, start.elapsedS, end.elapsedS);
    const onScale = given.fact(stoveScale)?.('inHold', start.elapsedS, end.elapsedS, fedKg);
    if (onScale) return weighedOnScale(onScale);
    const startsAtTarget = Math.abs(start.elapsedS - targetS) < 1;
    const atStart = startsAtTarget
      ? edge(feeds, 'firebox.target', targetS)
      : edge(feeds, 'firebox.holdStart', start.elapsedS);
    const out = given.fact(fireOut);
    const isRaked = out !== undefined && out.elapsedS - end.elapsedS < RAKED_WITHIN_S;
    const atEnd = (isRaked ? rakedOut(given.subject) : undefined) ?? edge(feeds, 'firebox.holdEnd', end.elapsedS);
    return fromFeeds(fedKg, atStart, atEnd);
  },
});

function feedsAndTarget(
  given: GivenBurn,
): { missing: Message } | { feeds: readonly Feed[]; litS: number; targetS: number } {
  const feeds = given.fact(weighedFeeds);
  if (!feeds) return { missing: missing('feedsNotWeighed') };
  const start = given.fact(lit);
  const { moment } = given.fact(foundTarget);
  if (!start || !moment) return { missing: given.whyMissing(litToTargetS) ?? missing('targetNotReached') };
  return { feeds, litS: start.elapsedS, targetS: moment.elapsedS };
}

function weighedOnScale({ kg, u, reading, evaporated, burntKg }: BurntOnScale): Found<BurnRecord> {
  return {
    from: [evaporatedKg],
    measured: [reading, evaporated],
    compute: each((wholeKg, readingErrorKg, error) => Math.max(0, burntKg(wholeKg, readingErrorKg, error))),
    refuse: () => tooVague(kg, u),
    remarks: [remark('stoveOnScale', { standardUncertaintyKg: u, kg })],
  };
}

function fromFeeds(fedKg: number, start: Edge, end: Edge): Found<BurnRecord> {
  const kg = fedKg + start.kg - end.kg;
  const u = Math.hypot(start.u, end.u);
  return {
    measured: [lying(start), lying(end)],
    compute: each((startKg, endKg) => Math.max(0, fedKg + Math.max(0, startKg) - Math.max(0, endKg))),
    refuse: () => tooVague(kg, u),
    remarks: [remark('firebox', { standardUncertaintyKg: u, kg })],
  };
}

function lying({ kg, error }: Edge): Sum {
  return { constant: kg, terms: error ? [{ input: error, weight: 1 }] : [] };
}

function tooVague(kg: number, u: number): Message | undefined {
  if (kg > 0 && u <= LARGEST_SHARE * kg) return undefined;
  return missing('fireboxUnknown', { standardUncertaintyKg: u, kg });
}

/** Fuel that was raked out and weighed, as wood. */
function rakedOut(record: BurnRecord): Edge | undefined {
  const weighed = record.weighings.filter(({ of, when }) => (of === 'brands' || of === 'char') && when === 'end');
  if (weighed.length === 0 || weighed.some(({ massKg }) => massKg === undefined)) return undefined;
  const kg = weighed.reduce((sum, { of, massKg }) => sum + (of === 'char' ? WOOD_PER_CHAR : 1) * massKg!, 0);
  return { kg, u: 0 };
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
