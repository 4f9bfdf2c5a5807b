/**
 * Plans the next test of a person's idea. It predicts no gain and ranks no ideas: from the few revisions of a stove
 * that would be guessing. It returns what the idea is confounded with, how many days show a difference worth having,
 * and an order of burns in which season, wood and skill affect both revisions alike.
 */
import type { Idea, NextTest } from '../contract/next-test.ts';
import type { Message, ResultId } from '../contract/results.ts';
import type { ComparisonCode } from '../language/comparison/comparison.ts';
import type { Language } from '../language/language.ts';
import { mean } from '../statistics/moments.ts';
import type { PooledVariance } from '../statistics/within-groups.ts';
import { unadjusted } from './adjustment.ts';
import { type Entry, measuredValues, poolOf, scaleOf } from './compare-result.ts';
import type { ComparedBurn } from './compared-burn.ts';
import { noErrors } from './conditions.ts';
import { dayOf, dayValues } from './days.ts';
import { type DaysAsked, daysFor, type FurtherDays, isHiddenByShared } from './planning.ts';
import { createTranslator } from './wording.ts';

/** Days of each revision where the scatter is unknown: the fewest that show it. */
const DAYS_WITHOUT_SCATTER = 3;
const MOST_DAYS = 30;

const message = (code: ComparisonCode, params: Message['params'] = {}): Message => ({ code, params });

/**
 * @param base burns of the revision that the idea starts from
 * @param others burns of each other revision of the stove, which give the scatter
 */
export function nextTestOf(
  idea: Idea,
  base: readonly ComparedBurn[],
  others: readonly (readonly ComparedBurn[])[],
  language: Language = 'en',
): NextTest {
  const id: ResultId = base[0]?.burn.primaryResult ?? 'dryWoodPerBatch';
  const entries = [base, ...others].flatMap((burns, index) =>
    burns.filter(counts).map((burn) => asMeasured(burn, index)),
  );
  const asked = daysOf(idea, id, entries);
  const proposedDays = asked && daysFor(asked);
  const days = idea.days ?? Math.min(MOST_DAYS, proposedDays?.likely ?? proposedDays?.low ?? DAYS_WITHOUT_SCATTER);
  const card = cardOf(days, idea.lots);
  const { saying } = createTranslator(language, { a: '', b: '' });
  return {
    change: idea.change,
    base: base[0]?.burn.revision?.label ?? 'A',
    ...(proposedDays ? { proposedDays } : {}),
    days,
    says: [
      daysMessage(idea.worthKnowing, proposedDays, asked !== undefined && isHiddenByShared(asked)),
      confusion(idea.parts),
      ...woodMessages(idea.lots, card),
      message('next/alternate'),
      message('next/operator'),
    ].map(saying),
    card,
  };
}

const counts = ({ burn }: ComparedBurn) => burn.status === 'ended' || burn.status === 'complete';

function asMeasured(compared: ComparedBurn, index: number): Entry {
  return {
    compared,
    place: index,
    day: dayOf(compared),
    block: undefined,
    adjustment: () => unadjusted,
    errors: noErrors,
  };
}

/** The inputs for the number of days of each revision: the observed scatter of this stove, and the lots. */
function daysOf({ worthKnowing, lots }: Idea, id: ResultId, entries: readonly Entry[]): DaysAsked | undefined {
  const scatter: PooledVariance = poolOf(id, entries);
  const own = (measuredValues(id, entries) ?? []).filter(({ place: index }) => index === 0);
  if (!(scatter.variance > 0) || own.length === 0) return undefined;
  const level = mean(own.map(({ value }) => value));
  const steps = new Set(entries.map(({ place: index }) => index)).size;
  return {
    counts: [dayValues(own).length, 0],
    scatter,
    sharedVariance: lots.length > 0 && lots.every(({ burns }) => burns < 2) ? 2 * lotVariance(own) : 0,
    difference: scaleOf(id).scale === 'ratio' ? Math.log1p(worthKnowing) : worthKnowing * Math.abs(level),
    steps,
  };
}

/** Variance of one burn from the declared uncertainty of its wood lots. */
function lotVariance(values: readonly { shared: ReadonlyMap<string, number> }[]): number {
  const ofLots = values.map(({ shared }) =>
    [...shared].reduce((sum, [identity, c]) => sum + (identity.startsWith('fuelLot ') ? c * c : 0), 0),
  );
  return mean(ofLots);
}

function daysMessage(worth: number, proposed: FurtherDays | undefined, isHidden: boolean): Message {
  if (proposed === undefined) return message('next/scatterUnknown');
  const { low, likely, high } = proposed;
  if (low === undefined) return message(isHidden ? 'next/noNumber' : 'next/noNumberForScatter', { worth });
  if (likely === undefined || high === undefined) return message('next/daysOpen', { worth, low });
  return message('next/days', { worth, low, likely, high });
}

function confusion(parts: readonly string[]): Message {
  if (parts.length === 0) return message('next/nothingNamed');
  return parts.length === 1
    ? message('next/oneThing')
    : message('next/several', { count: parts.length, names: parts.join(', ') });
}

function woodMessages(lots: Idea['lots'], card: NextTest['card']): Message[] {
  if (lots.length === 0) return [message('next/lotsUnknown')];
  const lasts = card.filter(({ lot }) => lot !== undefined).length;
  if (lasts === 0) return [message('next/lotsApart')];
  return lasts < card.length ? [message('next/lotsShort', { lasts, needed: card.length })] : [];
}

/** Alternates both revisions, each pair of days from one lot. A remainder of a lot for a single burn is not used. */
function cardOf(days: number, lots: Idea['lots']): NextTest['card'] {
  const pairs = lots.flatMap(({ name, burns }) => new Array<string>(burns >> 1).fill(name));
  return Array.from({ length: 2 * days }, (_, index) => {
    const lot = pairs[index >> 1];
    return { day: index + 1, revision: index % 2 === 0 ? 'base' : 'new', ...(lot === undefined ? {} : { lot }) };
  });
}
