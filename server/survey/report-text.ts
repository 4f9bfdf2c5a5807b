import type { Block, Report } from '../reports/report.ts';

/** A report for a terminal: its sentences and tables, without its figures. */
export function reportText({ title, subtitle, blocks }: Report): string {
  return `${[title, subtitle, ...blocks.flatMap(blockText)].join('\n\n')}\n`;
}

function blockText(block: Block): string[] {
  switch (block.kind) {
    case 'heading':
      return [`## ${block.text}`];
    case 'text':
    case 'verdict':
    case 'notice':
      return [block.text];
    case 'list':
    case 'caution':
      return block.items.map((item) => `- ${item}`);
    case 'table':
      return [tableText(block)];
    default:
      return [];
  }
}

function tableText({ columns, rows }: Extract<Block, { kind: 'table' }>): string {
  const titles = columns.map(({ title }) => title);
  const widths = titles.map((title, column) =>
    Math.max(title.length, ...rows.map((row) => (row[column] ?? '').length)),
  );
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, column) =>
        columns[column]!.align === 'right' ? cell.padStart(widths[column]!) : cell.padEnd(widths[column]!),
      )
      .join('  ')
      .trimEnd();
  return [titles, widths.map((width) => '-'.repeat(width)), ...rows].map(line).join('\n');
}
