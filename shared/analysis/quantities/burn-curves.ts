/** The curves of a record that all quantities use, and the moments of the fire found in them. */
import { fireOutMoment, firstPotOn, litMoment, marksOf } from '../curves/fire-moments.ts';
import { findPlateau } from '../curves/plateau.ts';
import { waterCurve } from '../curves/water-curve.ts';
import { fact } from './declare.ts';
import { trustedCurves } from './trusted-curves.ts';

export const flaggedCurves = fact('flagged curves', [], ({ subject }) => trustedCurves(subject));

export const curves = fact('curves', [flaggedCurves], (given) => given.fact(flaggedCurves).map(({ curve }) => curve));

export const water = fact('water curve', [curves], (given) => waterCurve(given.fact(curves)));

export const lit = fact('lit', [curves, water], (given) =>
  litMoment(given.subject, given.fact(curves), given.fact(water)),
);

export const fireOut = fact('fire out', [curves, water, lit], (given) => {
  const start = given.fact(lit);
  return start && fireOutMoment(given.subject, given.fact(curves), given.fact(water), start.elapsedS);
});

/** A moment at which nothing had heated the water yet, s: lit, or the first reading where that is not known. */
export const stillS = fact(
  'still water',
  [water, lit],
  (given) => given.fact(lit)?.elapsedS ?? given.fact(water)?.timeS[0] ?? Number.NaN,
);

/** Lit, or pot on where that came later, s; −∞ where neither is known. */
export const heatingStartS = fact('start of heating', [lit], (given) =>
  Math.max(
    given.fact(lit)?.elapsedS ?? Number.NEGATIVE_INFINITY,
    (firstPotOn(given.subject)?.elapsedUs ?? Number.NEGATIVE_INFINITY) / 1e6,
  ),
);

/** Last moment at which the fire can have heated the water: fire out, or the end of the readings. */
export const fireEndS = fact(
  'end of the fire',
  [fireOut, water],
  (given) => given.fact(fireOut)?.elapsedS ?? given.fact(water)?.timeS.at(-1) ?? 0,
);

/** The plateau of the water at its boil. A pot held below the boil has a plateau that depends on its fire. */
export const plateau = fact('plateau', [water, lit, fireEndS], (given) => {
  const curve = given.fact(water);
  const start = given.fact(lit);
  if (given.subject.target.kind !== 'boil' || !curve || !start) return undefined;
  const feedsS = marksOf(given.subject, 'fed').map((mark) => mark.elapsedUs / 1e6);
  return findPlateau(curve, start.elapsedS, given.fact(fireEndS), feedsS);
});
