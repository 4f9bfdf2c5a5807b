/** The structure of a PDF for programs that read it aloud: its elements in order, and what is only decoration. */

export type Part = ReturnType<PDFKit.PDFDocument['struct']>;

export interface PartOptions {
  /** A description of the figure for a reader who cannot see it. */
  readonly alt?: string;
  /** Left, top, right and bottom of a figure on its page. */
  readonly bbox?: readonly [number, number, number, number];
  /** Whether the cell is a heading of its column or its row. */
  readonly scope?: 'Column' | 'Row';
}

/** A child element, by its type in ISO 32000-1, 14.8.4: P, H2, Table, TR … */
export function partOf(doc: PDFKit.PDFDocument, parent: Part, type: string, options: PartOptions = {}): Part {
  // pdfkit has more options than its types include.
  const part = doc.struct(type, options as object);
  parent.add(part);
  return part;
}

/** Creates the element once and returns the same one afterwards: for an element that continues over several pages. */
export function lazily(make: () => Part): () => Part {
  let made: Part | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

/** Rules, page numbers and other content that is not read aloud. */
export function asDecoration(doc: PDFKit.PDFDocument, type: 'Layout' | 'Pagination', draw: () => void): void {
  doc.markContent('Artifact', { type });
  draw();
  doc.endMarkedContent();
}
