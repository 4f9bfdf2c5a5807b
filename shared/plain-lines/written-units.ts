/** Recognises units as boards and loggers write them: after a number, or in the heading of its column. */
import type { ColumnUnit } from '../contract/ucum-units.ts';

/** A degree sign, and its replacements in fonts and encodings without it. */
const DEGREE = "(?:Â?[°º˚*'´\\ufffd]|deg(?:rees?|s)?\\.?[ _]?|o(?=[CF]$))?\\s*";

const behindNumber: readonly (readonly [RegExp, ColumnUnit])[] = [
  [new RegExp(`^(?:${DEGREE}(?:c|cel|celsius|centigrade)|℃)$`, 'i'), 'Cel'],
  [new RegExp(`^(?:${DEGREE}(?:f|fahrenheit)|℉)$`, 'i'), '[degF]'],
  // A lower-case k is the prefix for a thousand.
  [new RegExp(`^${DEGREE}(?:K|[Kk]elvins?)$`), 'K'],
  [/^(?:kgs?|kilos?|kilograms?)$/i, 'kg'],
  // A capital G after a mass marks it as gross.
  [/^(?:g|gr|[Gg]rams?|[Gg]rammes?)$/, 'g'],
  [/^(?:lbs?|pounds?)$/i, '[lb_av]'],
  [/^(?:hpa|mbar|mb)$/i, 'hPa'],
  [/^kpa$/i, 'kPa'],
  [/^pa$/i, 'Pa'],
  [/^(?:%|% ?rh|%rh|pct|percent)$/i, '%'],
  [/^(?:[uµμ]v|microvolts?)$/i, 'uV'],
  [/^(?:mv|millivolts?)$/i, 'mV'],
  [/^(?:ohms?|[ΩΩ])$/i, 'Ohm'],
  // Known to be something else: no unit is better than a wrong one.
  [
    /^(?:v|volts?|m?a|amps?|k?w|watts?|k?hz|rpm|ppm|ppb|m\/s|l\/min|bar|psi|oz|mm|cm|m|lux|lx|k(?:ohms?|Ω)|db|dbm)$/i,
    '1',
  ],
];

/** Returns the unit that the whole text is. */
export function unitWritten(text: string): ColumnUnit | undefined {
  const bare = text.trim().replace(/^[[(]\s*|\s*[\])]$/g, '');
  return bare === '' ? undefined : behindNumber.find(([pattern]) => pattern.test(bare))?.[1];
}

const inHeading: readonly (readonly [RegExp, ColumnUnit])[] = [
  [/(^|[^a-z])(°|deg\.? ?|º|˚|in )f\b|fahrenheit|\[degf\]|[([]f[)\]]|℉/i, '[degF]'],
  [/(^|[^a-z])(°|deg\.? ?|º|˚|in )c\b|celsius|\bcel\b|[([]c[)\]]|℃/i, 'Cel'],
  [/\bkelvin\b|[([]k[)\]]/i, 'K'],
  [/(\b|_)kg\b/i, 'kg'],
  [/(\b|_)lbs?\b|pounds?/i, '[lb_av]'],
  [/[([]g[)\]]|grams?\b|grammes?\b|[a-z]_g$/i, 'g'],
  [/(\b|_)hpa\b|(\b|_)mbar\b/i, 'hPa'],
  [/(\b|_)kpa\b/i, 'kPa'],
  [/(\b|_)pa\b/i, 'Pa'],
  [/[µu]v\b|microvolt/i, 'uV'],
  [/(\b|_)mv\b|millivolt/i, 'mV'],
  [/(\b|_)ohms?\b|Ω/i, 'Ohm'],
  [/%/, '%'],
  // Known to be something else: no unit is better than a wrong one.
  [/[([](v|volts?|ma|w|kw|hz|rpm|ppm|m\/s|l\/min|bar|psi)[)\]]/i, '1'],
];

export function unitIn(heading: string): ColumnUnit | undefined {
  return inHeading.find(([pattern]) => pattern.test(heading))?.[1];
}

const LETTER_UNITS: Readonly<Record<string, ColumnUnit>> = { c: 'Cel', f: '[degF]', k: 'K' };
/**
 * A letter alone, after an underscore ("pot_f"), after a word for temperature ("Temp F"), or a capital after lower-case
 * letters ("potF").
 */
const LETTER = /^(|.*_|.*\bt(?:emp(?:erature)?)?[ _-]?)([cf]|K)$|^(.*[a-z])([CF])$/i;

/**
 * Returns the units that headings name, including those of one letter, unless the letters distinguish probes A, B and
 * C.
 */
export function unitsIn(headings: readonly string[]): (ColumnUnit | undefined)[] {
  const bare = headings.map((heading) => heading.trim().replace(/\[\d+\]$/, ''));
  return bare.map(
    (heading, index) =>
      unitIn(heading) ??
      letterUnit(
        heading,
        bare.filter((_, other) => other !== index),
      ),
  );
}

function letterUnit(heading: string, others: readonly string[]): ColumnUnit | undefined {
  const match = LETTER.exec(heading);
  const letter = heading.at(-1);
  if (!match || letter === undefined) return undefined;
  // The pattern ignores case, but a letter after a word has to be a capital.
  if (match[4] !== undefined && !(/[CF]/.test(letter) && /[a-z]/.test(heading.at(-2) ?? ''))) return undefined;
  const stem = heading.slice(0, -1).toLowerCase();
  const namesProbes = others.some((other) => {
    const last = other.at(-1)?.toLowerCase() ?? '';
    return other.slice(0, -1).toLowerCase() === stem && /[a-z]/.test(last) && !(last in LETTER_UNITS);
  });
  return namesProbes ? undefined : LETTER_UNITS[letter.toLowerCase()];
}
