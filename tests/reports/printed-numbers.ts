/** Parses numbers from the text of a report by their symbols, in any language. */

/** e.g. `E_fuel = 60.0554 MJ`, `ΔH_load = 10,2634 MJ`, `N = 1` */
export function printedNumbers(text: string): Map<string, number> {
  const found = new Map<string, number>();
  for (const [, symbol = '', figure = ''] of text.matchAll(
    /(?<=\s)([^\s=]+(?: \/ [^\s=]+)?) ?= ?(−?\d[\d.,]*(?: \d{3}(?=[ ,]))*(?:,\d+)?)/g,
  ))
    found.set(symbol.replaceAll('∑', 'Σ'), numberOf(figure));
  return found;
}

/** A decimal point or comma, groups of three with blanks between, a true minus sign. */
export function numberOf(figure: string): number {
  return Number(figure.replaceAll(/\s/g, '').replace(',', '.').replace('−', '-'));
}

/** Numbers with one symbol and an index: `m_1`, `m_2` … */
export function indexed(numbers: ReadonlyMap<string, number>, symbol: string): number[] {
  const values: number[] = [];
  for (let index = 1; numbers.has(`${symbol}${index}`); index++) values.push(numbers.get(`${symbol}${index}`)!);
  return values;
}

/** Numbers whose symbols begin alike: `M_in,1`, `M_in,3` … */
export function withPrefix(numbers: ReadonlyMap<string, number>, prefix: string): number[] {
  return [...numbers].flatMap(([symbol, value]) => (symbol.startsWith(prefix) ? [value] : []));
}
