/** Temperatures and masses in a line of notes. */
import { UNITS } from '../../../shared/physics/units.ts';

export const decimalNumber = (text: string) => Number(text.replace(',', '.').replace('−', '-'));

const NAME = '^(?:(?:[A-Za-zÀ-ÿ]{1,12}\\s?\\d?)\\s*[:=]\\s*|[Tt]\\d?\\s*)?';
const UNIT_OF_TEMPERATURE = '\\s*(?:°\\s*[CF]|º\\s*[CF]|deg(?:r[ée]?s?)?\\.?|°|[CF](?![A-Za-zÀ-ÿ]))?(?=$|[\\s;,/|)→-])';
/** A number with its unit, and a name in front of it at most ("T1 = 23,5 °C"). */
const VALUE = new RegExp(`${NAME}([-+−]?\\d+(?:[.,]\\d+)?)${UNIT_OF_TEMPERATURE}`);
/** The same with its thousands set apart: "1,050.5". */
const GROUPED = new RegExp(`${NAME}([-+−]?\\d{1,3}(?:,\\d{3}\\.|\\.\\d{3},)\\d+)${UNIT_OF_TEMPERATURE}`);
/** Above every temperature of a fire, in °F as well: "20,185.5" is two of them. */
const HIGHEST = 3000;
export const BETWEEN = /^[\s;:,=|/→>)–—-]+/;

/** Units of what is no temperature. A letter alone is one in lower case; in upper case it is whoever did something. */
const OTHER_UNIT =
  /^\s*(?:(?:kgs?|gr|kilos?|grammes?|grams?|lbs?|oz|pounds?|livres?|%|mm|cm|litres?|liters?|hpa|mbar|km\/h|min|mn|minutes?|sec|secondes?|seconds?|hours?|heures?)(?![a-zà-ÿ]))/i;
const OTHER_LETTER = /^\s*(?:[glmshx]|L|×)(?![A-Za-zÀ-ÿ])/;
const SIZES =
  '(?:(?:more|small|big|large|thin|thick|short|long|dry|wet|split|half|petits?|petites?|gros|grosses?|grandes?|autres?|belles?|beaux)\\s+)*';
const ONE_THING = new RegExp(
  `^\\s*${SIZES}(?:log|stick|piece|split|charge|handful|armful|time|b[ûu]che|b[ûu]chette|b[âa]ton|morceau|rondin|quartier|poign[ée]e|fois|brick|briquette)(?![a-zà-ÿ])`,
  'i',
);
const THINGS = new RegExp(
  `^\\s*${SIZES}(?:logs|sticks|pieces|splits|charges|handfuls|armfuls|times|b[ûu]ches|b[ûu]chettes|b[âa]tons|morceaux|rondins|quartiers|poign[ée]es|fois|bricks|briquettes)(?![a-zà-ÿ])`,
  'i',
);

/** Whether a number counts or weighs what stands behind it: then it is no temperature. */
function isCount(written: string, behind: string): boolean {
  if (OTHER_UNIT.test(behind) || OTHER_LETTER.test(behind)) return true;
  return written === '1' ? ONE_THING.test(behind) : /^\d+$/.test(written) && THINGS.test(behind);
}

export interface Values {
  values: number[];
  rest: string;
  /** A mark that may part thousands as well as decimals, or two values. */
  isGrouped: boolean;
}

/** The numbers at the beginning of a text that are temperatures, and what stands behind them. */
export function takeValues(text: string): Values {
  const values: number[] = [];
  let rest = text;
  let isGrouped = false;
  for (let match = valueIn(rest); match; match = valueIn(rest)) {
    if (isCount(match.written, rest.slice(match.length))) break;
    values.push(match.value);
    isGrouped ||= /\d[.,]\d{3}(?!\d)/.test(match.written);
    rest = rest.slice(match.length).replace(BETWEEN, '');
  }
  return { values, rest, isGrouped };
}

function valueIn(text: string): { written: string; value: number; length: number } | undefined {
  const grouped = GROUPED.exec(text);
  if (grouped) {
    const [found, written = ''] = grouped;
    const value = decimalNumber(written.replace(/[.,](?=.*[.,])/, ''));
    if (value <= HIGHEST) return { written, value, length: found.length };
  }
  const match = VALUE.exec(text);
  return match ? { written: match[1]!, value: decimalNumber(match[1]!), length: match[0].length } : undefined;
}

/** Stands for a mass that was taken out of a remark; no letter of any language. */
export const MASS = '§';

const MASS_UNITS: readonly (readonly [RegExp, number])[] = [
  [/^(?:kgs?|kilos?|kilogram(?:me)?s?)$/i, 1],
  [/^(?:g|gr|grams?|grammes?)$/i, UNITS.g.factor],
  [/^(?:lbs?|pounds?)$/i, UNITS.lb.factor],
];
const UNIT = '(kgs?|kilos?|kilogram(?:me)?s?|gr?|grams?|grammes?|lbs?|pounds?)';
const NUMBER = "(\\d{1,3}(?:[  \\u00a0\\u202f'’]\\d{3})+(?:[.,]\\d+)?|\\d*[.,]\\d+|\\d+)";
const WEIGHED = new RegExp(`${NUMBER}\\s*${UNIT}(?![a-zà-ÿ])`, 'gi');
/** A number that is reckoned with, half of a range or of a fraction: what is meant by it, its own digits do not say. */
const RECKONED_BEFORE = /(?:[\d½¼¾/×*+–?~'’-]|\bx)\s*$|[.,]$/i;
const MORE_BEHIND = /^\s*\d/;
const ANY_WEIGHT =
  /(?:\d|[½¼¾])\s*(?:kgs?|kilos?|kilogram|gr?|grams?|grammes?|lbs?|pounds?|oz|ounces?|livres?)(?![a-zà-ÿ])/gi;

export interface Weighed {
  /** The text with a sign in place of each mass that was understood. */
  text: string;
  /** In the order of those signs, kg. */
  massesKg: number[];
  /** Some mass was not understood. */
  isUnclear: boolean;
  /** A mass with a mark that may part thousands as well as decimals. */
  isGrouped: boolean;
}

export function takeMasses(text: string): Weighed {
  const massesKg: number[] = [];
  let isGrouped = false;
  const mentioned = [...text.matchAll(ANY_WEIGHT)].length;
  const signed = text.replace(WEIGHED, (found, number: string, unit: string, offset: number) => {
    const before = text.slice(0, offset);
    if (RECKONED_BEFORE.test(before) || MORE_BEHIND.test(text.slice(offset + found.length))) return found;
    const perUnit = MASS_UNITS.find(([pattern]) => pattern.test(unit))![1];
    const [whole = '', thousandth] = number.split(/[.,]/);
    const kgOf = (value: number) => value * perUnit;
    const joined = number.replace(/[\s  \u00a0\u202f'’]/g, '');
    // Nobody weighs to the milligram: in grams the three digits behind the mark are hundreds of them.
    const isThousands = perUnit === 1e-3 && thousandth?.length === 3 && /^[1-9]\d{0,2}$/.test(whole);
    isGrouped ||= isThousands;
    const massKg = isThousands ? kgOf(Number(`${whole}${thousandth}`)) : kgOf(decimalNumber(joined));
    if (!(massKg > 0)) return found;
    massesKg.push(massKg);
    return ` ${MASS} `;
  });
  return { text: signed, massesKg, isUnclear: massesKg.length < mentioned, isGrouped };
}
