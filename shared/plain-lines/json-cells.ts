import type { PlainCell } from './field.ts';

/** Keys that name the probe of the values, which identifies them in a list of any order. */
const NAMES = ['sensor', 'probe', 'channel', 'name', 'label', 'address', 'addr', 'rom'];
const UNITS = ['unit', 'units', 'uom'];
/** Names to which the unit of the whole object does not apply: it belongs to temperatures or masses. */
const WITHOUT_COMMON_UNIT = /hum|\brh\b|press|baro|time|millis|clock|count|seq|batt|volt|rssi|^(?:ms|ts|t|id|n)$/i;
const MOST_CELLS = 64;
const LONGEST_KEY = 120;
/** Many boards print these, though JSON has no such numbers. */
const BARE_WORD = /([:,[]\s*)([+-]?(?:nan|inf(?:inity)?))(?=\s*[,}\]])/gi;

/** Returns the values of a line of JSON by their paths ("pot.low", "temps[0]"); undefined when the line has none. */
export function jsonCells(line: string): PlainCell[] | undefined {
  const from = line.search(/[[{]/);
  const to = Math.max(line.lastIndexOf('}'), line.lastIndexOf(']'));
  if (from < 0 || to < from) return undefined;
  let value: unknown;
  try {
    value = JSON.parse(line.slice(from, to + 1).replace(BARE_WORD, '$1"$2"'));
  } catch {
    return undefined;
  }
  const cells: PlainCell[] = [];
  collect(value, '', undefined, cells);
  return cells;
}

function collect(value: unknown, path: string, unit: string | undefined, cells: PlainCell[]): void {
  if (cells.length >= MOST_CELLS || path.length > LONGEST_KEY) return;
  if (Array.isArray(value)) {
    value.forEach((each, index) => {
      collect(each, nameIn(each) === undefined ? `${path}[${index}]` : path, unit, cells);
    });
  } else if (isObject(value)) {
    const name = nameIn(value);
    const base = name === undefined ? path : join(path, name);
    const common = textUnder(value, UNITS)?.[1] ?? unit;
    for (const [key, each] of Object.entries(value)) {
      if (isOneOf(key, NAMES) && typeof each === 'string') continue;
      if (/units?$/i.test(key) && typeof each === 'string') continue;
      const own = textUnder(value, [`${key}_unit`, `${key}_units`, `${key}Unit`])?.[1];
      collect(each, join(base, key), own ?? (WITHOUT_COMMON_UNIT.test(key) ? undefined : common), cells);
    }
  } else if (typeof value === 'number') {
    cells.push({ key: path, text: unit === undefined ? String(value) : `${value} ${unit}` });
  } else if (typeof value === 'string' || value === null) {
    cells.push({ key: path, text: value ?? '' });
  }
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null;
}

function join(path: string, key: string): string {
  return path === '' ? key : `${path}.${key}`;
}

function isOneOf(key: string, names: readonly string[]): boolean {
  return names.some((name) => name.toLowerCase() === key.toLowerCase());
}

function textUnder(value: Record<string, unknown>, names: readonly string[]): [string, string] | undefined {
  const found = Object.entries(value).find(([key, each]) => isOneOf(key, names) && typeof each === 'string');
  return found && [found[0], String(found[1])];
}

function nameIn(value: unknown): string | undefined {
  if (!isObject(value) || Array.isArray(value)) return undefined;
  const name = textUnder(value, NAMES)?.[1].trim();
  return name === undefined || name === '' ? undefined : name;
}
