import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { create, type Font } from 'fontkit';
import type PDFDocument from 'pdfkit';

const require = createRequire(import.meta.url);

const files = {
  regular: require.resolve(
    '@expo-google-fonts/atkinson-hyperlegible-next/400Regular/AtkinsonHyperlegibleNext_400Regular.ttf',
  ),
  bold: require.resolve('@expo-google-fonts/atkinson-hyperlegible-next/700Bold/AtkinsonHyperlegibleNext_700Bold.ttf'),
  // The fallback for characters that the text face does not contain: Greek, arrows, other scripts.
  companion: require.resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf'),
};
export type Weight = 'regular' | 'bold';

export interface TextStyle {
  readonly weight: Weight;
  readonly sizePt: number;
  readonly color: string;
}

/** Consecutive characters of one face. */
interface Run {
  readonly face: keyof typeof files;
  readonly text: string;
}

/** One line without a break. */
export interface TextLine {
  readonly runs: readonly Run[];
  readonly widthPt: number;
}

/**
 * Writes text with embedded fonts. Each character is taken from the text face where that contains it, else from the
 * companion, in every language; a character in no face is replaced by a question mark, never by a wrong one.
 */
export interface PdfPen {
  readonly doc: PDFKit.PDFDocument;
  /** Break a text into lines no wider than `widthPt`: at spaces and line ends, inside a word only where it is wider itself. */
  linesOf(text: string, style: TextStyle, widthPt: number): TextLine[];
  /** @param yPt of the base line */
  write(line: TextLine, style: TextStyle, xPt: number, yPt: number): void;
}

/** Characters that look alike in a formula, of which the text face contains the other one. */
const alike: Readonly<Record<string, string>> = { Σ: '∑', µ: 'μ', '\u202f': '\u00a0' };

export function createPdfPen(doc: InstanceType<typeof PDFDocument>): PdfPen {
  const faces = Object.entries(files).map(([name, file]) => {
    const bytes = readFileSync(file);
    doc.registerFont(name, bytes);
    return [name, create(bytes) as Font] as const;
  });
  const face = Object.fromEntries(faces) as Record<keyof typeof files, Font>;
  const has = (name: keyof typeof files, sign: string) => face[name].hasGlyphForCodePoint(sign.codePointAt(0) ?? 0);

  function runsOf(text: string, weight: Weight): Run[] {
    const runs: Run[] = [];
    for (const sign of text) {
      const name = has(weight, sign) ? weight : 'companion';
      const shown = has(name, sign) ? sign : '?';
      const last = runs.at(-1);
      if (last?.face === name) runs[runs.length - 1] = { face: name, text: last.text + shown };
      else runs.push({ face: name, text: shown });
    }
    return runs;
  }

  function lineOf(text: string, { weight, sizePt }: TextStyle): TextLine {
    const runs = runsOf(text, weight);
    const widthPt = runs.reduce((sum, run) => sum + doc.font(run.face).fontSize(sizePt).widthOfString(run.text), 0);
    return { runs, widthPt };
  }

  /** Cached because words recur, and each measurement shapes them again. */
  const widths = new Map<string, number>();
  function widthPtOf(text: string, style: TextStyle): number {
    const key = `${style.weight} ${style.sizePt} ${text}`;
    const widthPt = widths.get(key) ?? lineOf(text, style).widthPt;
    widths.set(key, widthPt);
    return widthPt;
  }

  function linesOf(text: string, style: TextStyle, widthPt: number): TextLine[] {
    const plain = [...text.normalize('NFC')].map((sign) => alike[sign] ?? sign).join('');
    return plain.split('\n').flatMap((paragraph) => {
      const lines: TextLine[] = [];
      let current = '';
      let currentPt = 0;
      const put = (piece: string) => {
        const isTooLong = currentPt + widthPtOf(piece.trimEnd(), style) > widthPt;
        if (current !== '' && isTooLong) {
          lines.push(lineOf(current.trimEnd(), style));
          [current, currentPt] = ['', 0];
        }
        current += piece;
        currentPt += widthPtOf(piece, style);
      };
      // A word includes the spaces after it; a no-break space is not a place to break.
      for (const word of paragraph.match(/[^ \t]+[ \t]*|[ \t]+/g) ?? []) {
        if (widthPtOf(word.trimEnd(), style) <= widthPt) put(word);
        else for (const sign of word) put(sign);
      }
      return [...lines, lineOf(current.trimEnd(), style)];
    });
  }

  return {
    doc,
    linesOf,
    write({ runs }, { sizePt, color }, xPt, yPt) {
      let atPt = xPt;
      for (const run of runs) {
        doc.font(run.face).fontSize(sizePt).fillColor(color);
        doc.text(run.text, atPt, yPt, { lineBreak: false, baseline: 'alphabetic' });
        atPt += doc.widthOfString(run.text);
      }
    },
  };
}
