import PDFDocument from 'pdfkit';
import { paperInks } from '../../shared/plot/inks.ts';
import { drawOnPdf } from './drawing-pdf.ts';
import { marginPt, type Paper, papers, textWidthPt } from './page-size.ts';
import { createPdfPen, type PdfPen } from './pdf-pen.ts';
import type { Block, Report } from './report.ts';

const bodyPt = 9.5;

/**
 * Write a report as PDF: vectors and embedded fonts, no browser.
 * The same report gives the same bytes on the same runtime.
 */
export async function reportToPdf(report: Report, paper: Paper): Promise<Buffer> {
  const { widthPt, heightPt } = papers[paper];
  const doc = new PDFDocument({
    size: [widthPt, heightPt],
    margin: marginPt,
    bufferPages: true,
    lang: report.language,
    displayTitle: true,
    info: {
      Title: report.title,
      Creator: 'Stovebench',
      Producer: 'Stovebench',
      CreationDate: new Date(report.dateUtcMs ?? 0),
    },
  });
  const chunks: Buffer[] = [];
  const written = new Promise<Buffer>((resolve, reject) => {
    doc.on('data', (chunk: Buffer) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
    doc.on('error', reject);
  });

  const pen = createPdfPen(doc);
  const page = new Sheet(pen, textWidthPt(paper), heightPt - marginPt - 14);
  page.write('bold', 20, paperInks.ink, report.title);
  page.write('regular', bodyPt, paperInks.quiet, report.subtitle);
  page.rule(1.2, paperInks.ink);
  for (const block of report.blocks) writeBlock(page, block);
  writeFooters(pen, report.footer, paper);
  doc.end();
  return written;
}

/** The page being filled: knows how far down it is and when a new page is needed. */
class Sheet {
  readonly #pen: PdfPen;
  readonly #bottomPt: number;
  readonly widthPt: number;

  constructor(pen: PdfPen, widthPt: number, bottomPt: number) {
    this.#pen = pen;
    this.widthPt = widthPt;
    this.#bottomPt = bottomPt;
  }

  get pen(): PdfPen {
    return this.#pen;
  }

  get yPt(): number {
    return this.#pen.doc.y;
  }

  newPage(): void {
    this.#pen.doc.addPage();
  }

  /** Start a new page when less than `heightPt` is left on this one. */
  reserve(heightPt: number): void {
    if (this.yPt + heightPt > this.#bottomPt) this.newPage();
  }

  skip(heightPt: number): void {
    this.#pen.doc.y += heightPt;
  }

  write(weight: 'regular' | 'bold', sizePt: number, color: string, text: string, indentPt = 0): void {
    const { doc } = this.#pen;
    const shown = this.#pen.use(weight, sizePt, color, text);
    const options = { width: this.widthPt - indentPt, lineGap: sizePt * 0.22 };
    this.reserve(Math.min(doc.heightOfString(shown, options), this.#bottomPt - marginPt));
    doc.text(shown, marginPt + indentPt, doc.y, options);
    this.skip(sizePt * 0.35);
  }

  rule(widthPt: number, color: string): void {
    const { doc } = this.#pen;
    doc
      .moveTo(marginPt, doc.y)
      .lineTo(marginPt + this.widthPt, doc.y)
      .lineWidth(widthPt)
      .stroke(color);
    this.skip(widthPt + 6);
  }
}

function writeBlock(page: Sheet, block: Block): void {
  switch (block.kind) {
    case 'heading':
      page.skip(10);
      page.reserve(60);
      page.write('bold', 12.5, paperInks.ink, block.text);
      return;
    case 'verdict':
      page.skip(4);
      page.write('regular', 15, paperInks.ink, block.text);
      return;
    case 'text':
      page.write('regular', bodyPt, paperInks.ink, block.text);
      return;
    case 'list':
    case 'caution':
      for (const item of block.items) {
        const color = block.kind === 'caution' ? paperInks.ember : paperInks.ink;
        page.reserve(24);
        page.pen.doc.rect(marginPt + 1, page.yPt + 4, 3, 3).fill(color);
        page.write('regular', bodyPt, paperInks.ink, item, 12);
      }
      return;
    case 'figure': {
      page.skip(6);
      page.reserve(block.drawing.height + 24);
      const topPt = page.yPt;
      drawOnPdf(page.pen, block.drawing, marginPt, topPt);
      page.pen.doc.y = topPt + block.drawing.height + 4;
      page.write('regular', 8.5, paperInks.quiet, block.caption);
      return;
    }
    case 'table':
      writeTable(page, block);
      return;
    case 'pageBreak':
      page.newPage();
      return;
  }
}

function writeTable(page: Sheet, table: Extract<Block, { kind: 'table' }>): void {
  const { pen } = page;
  const total = table.columns.reduce((sum, column) => sum + column.share, 0);
  const widths = table.columns.map((column) => (column.share / total) * page.widthPt);
  const gutterPt = 8;

  const writeRow = (cells: readonly string[], color: string, sizePt: number) => {
    const heights = cells.map((cell, column) => {
      const shown = pen.use('regular', sizePt, color, cell);
      return pen.doc.heightOfString(shown, { width: (widths[column] ?? 0) - gutterPt });
    });
    const heightPt = Math.max(...heights, sizePt);
    page.reserve(heightPt + 8);
    const topPt = page.yPt;
    let leftPt = marginPt;
    cells.forEach((cell, column) => {
      const widthPt = widths[column] ?? 0;
      const shown = pen.use('regular', sizePt, color, cell);
      pen.doc.text(shown, leftPt, topPt, { width: widthPt - gutterPt, align: table.columns[column]?.align ?? 'left' });
      leftPt += widthPt;
    });
    pen.doc.y = topPt + heightPt + 3;
    page.rule(0.4, paperInks.line);
    page.skip(-3);
  };

  page.reserve(40);
  writeRow(
    table.columns.map((column) => column.title),
    paperInks.quiet,
    8.5,
  );
  for (const row of table.rows) writeRow(row, paperInks.ink, 9);
  page.skip(4);
}

/** Footers are written last, when the number of pages is known. */
function writeFooters(pen: PdfPen, footer: string, paper: Paper): void {
  const { doc } = pen;
  const { count } = doc.bufferedPageRange();
  for (let page = 0; page < count; page++) {
    doc.switchToPage(page);
    // Below the margin the writer would start a new page by itself.
    doc.page.margins.bottom = 0;
    const topPt = papers[paper].heightPt - marginPt + 8;
    const shown = pen.use('regular', 7, paperInks.quiet, footer);
    doc.text(shown, marginPt, topPt, { width: textWidthPt(paper) - 50, lineBreak: true, height: 18 });
    const number = pen.use('regular', 7, paperInks.quiet, `${page + 1} / ${count}`);
    doc.text(number, marginPt, topPt, { width: textWidthPt(paper), align: 'right', lineBreak: false });
  }
}
