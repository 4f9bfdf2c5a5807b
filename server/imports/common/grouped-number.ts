/** Numbers whose thousands are set apart: "1,050.5", "1.050,5", "1 050,5", "1'050". */
import type { ColumnFormat } from '../../../shared/contract/imports.ts';

export type Thousands = NonNullable<ColumnFormat['thousands']>;
type Decimal = ColumnFormat['decimal'];

/** Blanks between thousands, the narrow ones of printed French among them. */
const marks: Record<Thousands, string> = { comma: ',', point: '\\.', blank: '[ \\u00a0\\u202f]', apostrophe: "['’]" };

function patternOf(thousands: Thousands, decimal: Decimal): RegExp {
  const fraction = decimal === 'comma' ? ',' : '\\.';
  return new RegExp(`^([+−-]?)(\\d{1,3}(?:${marks[thousands]}\\d{3})+)(?:${fraction}(\\d+))? *[^\\d\\s.,;'’]{0,6}$`);
}

const patterns = new Map<string, RegExp>();

/** Which marks can stand between thousands when the decimal mark is this one. */
export function thousandsFor(decimal: Decimal): Thousands[] {
  return [decimal === 'comma' ? 'point' : 'comma', 'blank', 'apostrophe'];
}

/** The number with its thousands joined, still with its own decimal mark and unit; undefined when it is not so written. */
export function withoutThousands(text: string, thousands: Thousands, decimal: Decimal): string | undefined {
  const key = `${thousands} ${decimal}`;
  const pattern = patterns.get(key) ?? patternOf(thousands, decimal);
  patterns.set(key, pattern);
  const match = pattern.exec(text.trim());
  if (!match) return undefined;
  const [, sign = '', whole = '', fraction] = match;
  const joined = `${sign}${whole.replace(/\D/g, '')}`;
  return fraction === undefined ? joined : `${joined}${decimal === 'comma' ? ',' : '.'}${fraction}`;
}
