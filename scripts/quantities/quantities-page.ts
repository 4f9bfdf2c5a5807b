/**
 * Generates the page of quantities: every declaration as a row of a table, and the quantities that each method set
 * publishes.
 */

import { declarations, methods } from '../../shared/analysis/methods/methods.ts';
import type { BurnQuantity } from '../../shared/analysis/quantities/declare.ts';

export function quantitiesPage(): string {
  const quantities = declarations
    .filter((declaration) => declaration.kind === 'quantity')
    .sort((a, b) => (a.name < b.name ? -1 : 1));
  return `${[
    '# Quantities',
    '',
    'Made from the declarations by `scripts/write-quantities.ts`; a test holds the two to each other. Units are UCUM. *Needs* are the',
    'quantities that it may follow from or look at; which of them a value did follow from in one burn stands with its result.',
    '',
    ...table(
      ['name', 'symbol', 'unit', 'formula', 'needs', 'source'],
      quantities.map((quantity) => [
        `\`${quantity.name}\``,
        quantity.symbol,
        `\`${quantity.unit}\``,
        quantity.formula,
        needed(quantity)
          .map((name) => `\`${name}\``)
          .join(', '),
        quantity.source,
      ]),
    ),
    '',
    '## What each method set publishes',
    '',
    ...table(
      ['result', ...methods.map(({ name }) => name)],
      published().map((id) => [
        `\`${id}\``,
        ...methods.map(({ results }) => (results[id] ? `\`${results[id].name}\`` : '')),
      ]),
    ),
    '',
  ].join('\n')}`;
}

function published() {
  return [...new Set(methods.flatMap(({ results }) => Object.keys(results) as (keyof typeof results)[]))];
}

function needed({ needs }: BurnQuantity): string[] {
  return needs.filter(({ kind }) => kind === 'quantity').map(({ name }) => name);
}

function table(head: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const line = (cells: readonly string[]) => `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  return [line(head), line(head.map(() => '---')), ...rows.map(line)];
}
