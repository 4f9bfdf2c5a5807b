import type { Cell, Table } from '../../server/exports/table.ts';

/** Text that has broken exports before: formulas, quotes, lines, right-to-left, emoji, markup, control signs. */
export const hostileTexts = [
  '=cmd|" /C calc"!A0',
  '+1+1',
  '-2+3',
  '@SUM(A1)',
  '"quoted", and; more',
  'two\nlines',
  'שלום עולם',
  '🔥 emoji',
  '<b>&amp;</b>',
  'a\u0007bell',
  ' spaces ',
  "it's",
];

/** A table of two pages with numbers, gaps and hostile text. Invented data. */
export function smallTable(): Table {
  const pages: Cell[][][] = [
    [
      [0, 1, 2],
      [15.25, null, -0.1],
      ['lit', null, hostileTexts[0]!],
    ],
    [hostileTexts.map((_, row) => row + 3), hostileTexts.map((_, row) => row / 7), hostileTexts],
  ];
  return {
    name: 'readings',
    description: 'invented readings',
    columns: [
      { name: 'elapsed', unit: 's', type: 'number', description: 'since recording started' },
      { name: 'water', unit: 'Cel', type: 'number', description: 'water' },
      { name: 'note', type: 'text', description: 'what was written' },
    ],
    pages: () => pages,
  };
}

export function allRows(table: Table): Cell[][] {
  return [...table.pages()].flatMap((page) =>
    (page[0] ?? []).map((_, row) => page.map((column) => column[row] ?? null)),
  );
}
