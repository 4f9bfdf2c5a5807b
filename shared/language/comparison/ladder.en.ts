/** The sentences of a ladder of revisions and of the next test, in English. */

import type { Params, Sentence } from '../language.ts';
import { capital, change, confidence, days, name, noLimits, span, sure } from './changes.en.ts';
import { thingNames } from './comparison.en.ts';

export const ladderEn = {
  /* ---- a step ---- */
  'step/better': (p) =>
    `${capital(String(p.second))} is better than ${p.first}: ${change(p)} (${sure(p)}: ${span(p)}).`,
  'step/worse': (p) => `${capital(String(p.second))} is worse than ${p.first}: ${change(p)} (${sure(p)}: ${span(p)}).`,
  'step/cannotTell': (p) =>
    `${capital(String(p.second))} against ${p.first}: cannot tell yet; ${change(p)}, but anything ${span(p)} fits (${sure(p)}).`,
  'step/noLimits': (p) =>
    `${capital(String(p.second))} against ${p.first}: cannot tell yet; ${change(p)}, but ${noLimits(p)}.`,
  'step/differs': (p) =>
    `${capital(String(p.second))} against ${p.first}: ${change(p)} (${sure(p)}: ${span(p)}), neither better nor worse in itself.`,
  'step/figures': (p) =>
    `${capital(String(p.second))} against ${p.first}: ${change(p)}${p.why === undefined ? '' : `, but ${p.why}`}`,
  'step/together': (p) =>
    `${p.count} things changed at once (${togetherNames(p)}): change one alone to know which did it.`,

  /* ---- which may be the best ---- */
  'best/one': (p) => `${capital(String(p.seen))} is the best of these ${p.of}: every other one is worse.`,
  'best/several': (p) =>
    `May be the best: ${p.names}. The best seen is ${p.seen}; the burns do not tell these apart from it.`,

  /* ---- effects of dimensions ---- */
  'effect/of': (p) =>
    `${p.name}, ${p.of === 'm' ? '1 cm' : '100 cm²'} more: ${name(p)} ${change(p)} (${confidence(p.confidence)}: ${span(p)}), as far as the revisions alone tell.`,
  'effect/notEverywhere': (p) =>
    `No effect of a dimension can be told: ${p.name} is not written down for every revision.`,
  'effect/tooFewRevisions': (p) =>
    `No effect of a dimension can be told: ${Number(p.dimensions) === 1 ? 'one dimension' : `${p.dimensions} dimensions`} changed over ${p.revisions} revisions, and it takes ${p.needed} revisions to tell that from what else differs between revisions.`,
  'effect/inseparable': (p) =>
    `No effect of a dimension can be told: ${p.names} always changed together. Change one alone to know.`,

  /* ---- what would narrow the answer ---- */
  'narrow/asItIs': (p) => `As it is: ${span(p)} (${confidence(p.confidence)} confidence, at one look).`,
  'narrow/anotherDay': (p) => `One more day of ${p.side}: then ${span(p)}.`,
  'narrow/oneLot': (p) => `Wood of one lot for both: then ${span(p)}.`,
  'narrow/charWeighed': (p) => `The char of every burn weighed: then ${span(p)}.`,
  'narrow/probesCalibrated': (p) => `The water probes calibrated: then ${span(p)}.`,

  /* ---- the next test ---- */
  'next/days': (p) =>
    `To show a difference of ${confidence(p.worth)} four times in five: ${days(p.likely)} of each, somewhere from ${p.low} to ${p.high}, at the scatter from day to day that this stove has shown.`,
  'next/daysOpen': (p) =>
    `To show a difference of ${confidence(p.worth)} four times in five: ${days(p.low)} of each or many more; the scatter is hardly known yet.`,
  'next/noNumber': (p) =>
    `No number of days will show a difference of ${confidence(p.worth)}: the wood lots that the two do not share are too uncertain. Burn both from one lot.`,
  'next/noNumberForScatter': (p) =>
    `Not even two hundred days of each will show a difference of ${confidence(p.worth)}: the days of this stove differ too much from each other. Look for a wrong entry among them, or for a steadier routine.`,
  'next/scatterUnknown': () =>
    'How many days it takes cannot be said yet: burn one revision on two days or more, and their scatter will tell. Three days of each is the least that is worth planning.',
  'next/several': (p) =>
    `${p.count} things would change at once (${p.names}). Whatever comes out, nobody will know which of them did it: change one alone to know.`,
  'next/oneThing': () => 'One thing changes: what comes out belongs to it, as far as the days are alike.',
  'next/nothingNamed': () =>
    'Write down what would change, each part by itself, to see what it would be confused with.',
  'next/lotsApart': () =>
    'No lot is large enough for a day of each: wood and stove would change together. Split a lot so that it serves both.',
  'next/lotsShort': (p) =>
    `The wood named lasts for ${days(p.lasts)} of ${p.needed}. Get a lot for the rest that serves both revisions.`,
  'next/lotsUnknown': () => 'Take the wood of each pair of days from one lot, so that it cancels.',
  'next/alternate': () =>
    'The revisions alternate from day to day, so that season, wood and skill fall on both alike. What was burnt before is counted in: these days come on top.',
  'next/operator': () => 'One person tends the fire on all these days, or both take turns within each pair.',
} satisfies Record<string, Sentence>;

function togetherNames({ count, dimensions, apart }: Params): string {
  const others =
    apart === ''
      ? []
      : String(apart)
          .split(',')
          .map((kind) => (thingNames[kind] ?? kind).toLowerCase());
  const built = dimensions === '' ? 'the stove' : String(dimensions);
  return [...(Number(count) > others.length ? [built] : []), ...others].join(', ');
}
