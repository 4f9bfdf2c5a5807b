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
  // The companion for what the text face lacks: Greek, arrows, signs of comparison, other scripts.
  companion: require.resolve('dejavu-fonts-ttf/ttf/DejaVuSans.ttf'),
};
export type Weight = 'regular' | 'bold';

/** Writes with embedded fonts: each piece of text in the first face that has all its signs. */
export interface PdfPen {
  readonly doc: PDFKit.PDFDocument;
  /**
   * Choose face, size and colour for a piece of text.
   * @returns the text to write: signs that no face has are replaced by a question mark, never by a wrong sign
   */
  use(weight: Weight, sizePt: number, color: string, text: string): string;
}

export function createPdfPen(doc: InstanceType<typeof PDFDocument>): PdfPen {
  const faces = Object.entries(files).map(([name, file]) => {
    const bytes = readFileSync(file);
    doc.registerFont(name, bytes);
    return [name, create(bytes) as Font] as const;
  });
  const face = Object.fromEntries(faces) as Record<keyof typeof files, Font>;
  const isMissing = (font: Font, sign: string) => !font.hasGlyphForCodePoint(sign.codePointAt(0) ?? 0);

  return {
    doc,
    use(weight, sizePt, color, text) {
      // Neither face has the narrow no-break space of French numbers; the ordinary one reads the same.
      const plain = text.normalize('NFC').replaceAll('\u202f', '\u00a0');
      const signs = [...plain].filter((sign) => sign !== '\n');
      const name = signs.some((sign) => isMissing(face[weight], sign)) ? 'companion' : weight;
      doc.font(name).fontSize(sizePt).fillColor(color);
      return name === weight
        ? plain
        : [...plain].map((sign) => (sign !== '\n' && isMissing(face.companion, sign) ? '?' : sign)).join('');
    },
  };
}
