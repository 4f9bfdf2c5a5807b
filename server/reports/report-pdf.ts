import PDFDocument from 'pdfkit';
import { isDate } from '../../shared/contract/burn-date.ts';
import { paperInks } from '../../shared/plot/inks.ts';
import { marginPt, type Paper, papers, textWidthPt } from './page-size.ts';
import { paginate } from './paginate.ts';
import { type PdfPiece, type Setting, writeLines } from './pdf-lines.ts';
import { createPdfPen, type PdfPen, type TextStyle } from './pdf-pen.ts';
import { piecesOf } from './pdf-pieces.ts';
import { asDecoration, lazily } from './pdf-structure.ts';
import type { Report } from './report.ts';

const footerStyle: TextStyle = { weight: 'regular', sizePt: 7, color: paperInks.quiet };
/** Between the text and the footer. */
const footerGapPt = 8;

/**
 * Write a report as PDF: vectors and embedded fonts, no browser; tagged, with bookmarks, language and title (ISO
 * 32000-1, 14.8). The same report gives the same bytes on the same runtime.
 */
export async function reportToPdf(report: Report, paper: Paper): Promise<Buffer> {
  const { widthPt, heightPt } = papers[paper];
  const doc = new PDFDocument({
    size: [widthPt, heightPt],
    margin: marginPt,
    bufferPages: true,
    autoFirstPage: false,
    pdfVersion: '1.7',
    tagged: true,
    lang: report.language,
    displayTitle: true,
    info: {
      Title: report.title,
      Creator: 'Stovebench',
      Producer: 'Stovebench',
      CreationDate: new Date(isDate(report.dateUtcMs ?? 0) ? report.dateUtcMs! : 0),
    },
  });
  const chunks: Buffer[] = [];
  const written = new Promise<Buffer>((resolve, reject) => {
    doc.on('data', (chunk: Buffer) => chunks.push(chunk));
    doc.on('end', () => resolve(Buffer.concat(chunks)));
    doc.on('error', reject);
  });

  const pen = createPdfPen(doc);
  const root = lazily(() => {
    const part = doc.struct('Document', { title: report.title });
    doc.addStructure(part);
    return part;
  });
  const setting = { pen, root, leftPt: marginPt, widthPt: textWidthPt(paper) };
  drawPages(report, setting, heightPt - 2 * marginPt - footerGapPt);
  writeFooters(pen, report.footer, paper);
  doc.end();
  return written;
}

function drawPages(report: Report, setting: Setting, roomPt: number): void {
  for (const page of pagesOf(report, setting, roomPt)) {
    setting.pen.doc.addPage();
    let topPt = marginPt;
    for (const [place, piece] of page.entries()) {
      if (place > 0) topPt += piece.spacePt;
      else if (piece.drawHead) {
        piece.drawHead(topPt);
        topPt += piece.headPt ?? 0;
      }
      piece.draw(topPt);
      topPt += piece.heightPt;
    }
  }
}

/**
 * With the tallest drawings with which everything before the page break fits on the first page; with the smallest where
 * none fit.
 */
function pagesOf(report: Report, setting: Setting, roomPt: number): PdfPiece[][] {
  const choices = Math.max(1, ...report.blocks.map((block) => (block.kind === 'figure' ? block.drawings.length : 1)));
  for (let choice = 0; ; choice++) {
    const pieces = piecesOf(report, choice, setting);
    const pages = paginate(pieces, roomPt).map((page) => page.map((index) => pieces[index]!));
    const isWhole = pages.length === 1 || pages[1]![0]!.startsPage === true;
    if (isWhole || choice === choices - 1) return pages;
  }
}

/** Footers are written last, when the number of pages is known. */
function writeFooters(pen: PdfPen, footer: string, paper: Paper): void {
  const { doc } = pen;
  const { count } = doc.bufferedPageRange();
  const topPt = papers[paper].heightPt - marginPt + 4;
  for (let page = 0; page < count; page++) {
    doc.switchToPage(page);
    // Below the margin pdfkit would start a new page.
    doc.page.margins.bottom = 0;
    const write = (text: string, align: 'left' | 'right', widthPt: number) => {
      const lines = pen.linesOf(text, footerStyle, widthPt).slice(0, 2);
      const leftPt = marginPt + textWidthPt(paper) - widthPt;
      writeLines(pen, lines, footerStyle, { leftPt: align === 'left' ? marginPt : leftPt, widthPt, align }, topPt);
    };
    asDecoration(doc, 'Pagination', () => {
      write(footer, 'left', textWidthPt(paper) - 50);
      write(`${page + 1} / ${count}`, 'right', 50);
    });
  }
}
