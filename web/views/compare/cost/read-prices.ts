/** Converts typed prices for a request: per kilogram whatever the unit on screen, shares as fractions. */
import type { Prices } from '../../../../shared/contract/comparison.ts';
import { translate } from '../../../language/catalogue.ts';
import { type Entry, number, onScreen, readNumber } from '../../../language/figures.ts';
import type { TypedPrices } from '../../../preferences/prices.ts';

export type PriceProblems = Readonly<Partial<Record<keyof TypedPrices, string>>>;
export type ReadPrices = { ok: true; prices: Prices } | { ok: false; problems: PriceProblems };

export function readPrices(typed: TypedPrices): ReadPrices {
  const problems: Partial<Record<keyof TypedPrices, string>> = {};
  const optional = (field: keyof TypedPrices, low: number, high: number, unit = ''): number | undefined => {
    if (typed[field].trim() === '') return undefined;
    const entry = within(readNumber(typed[field].replace(/%\s*$/, '')), low, high, unit);
    if (entry.ok) return entry.value;
    problems[field] = entry.problem;
    return undefined;
  };
  // A price per pound is 2.2 times as much per kilogram.
  const aKilogram = onScreen('mass', 1);
  const wood = optional('wood', 0, 1e6);
  const gas = optional('gas', 0, 1e6);
  const current = optional('electricity', 0, 1e6);
  const batches = optional('batches', 0.01, 1e6);
  const gasShare = optional('gasEfficiency', 5, 100, '%');
  const currentShare = optional('electricityEfficiency', 5, 100, '%');
  const currency = typed.currency.trim().slice(0, 10);
  if (Object.keys(problems).length > 0) return { ok: false, problems };
  return {
    ok: true,
    prices: {
      ...(currency && { currency }),
      ...(wood !== undefined && { woodPerKg: wood * aKilogram }),
      ...(batches !== undefined && { batchesPerSeason: batches }),
      ...(gas !== undefined && {
        bottledGas: { perKg: gas * aKilogram, gas: typed.gasKind, efficiency: (gasShare ?? 50) / 100 },
      }),
      ...(current !== undefined && { electricity: { perKWh: current, efficiency: (currentShare ?? 85) / 100 } }),
    },
  };
}

function within(entry: Entry<number>, low: number, high: number, unit: string): Entry<number> {
  if (!entry.ok) return entry;
  const words = translate().describe.number;
  const limit = (value: number) => `${number(value, value < 1 ? 2 : 0)}${unit && `\u00a0${unit}`}`;
  if (entry.value < low) return { ok: false, problem: words.tooLow({ low: limit(low) }) };
  if (entry.value > high) return { ok: false, problem: words.tooHigh({ high: limit(high) }) };
  return entry;
}
