/** What a program that reads a PDF aloud is told of it: its parts in their order, and what is only decoration. */

export type Part = ReturnType<PDFKit.PDFDocument['struct']>;

export interface PartOptions {
  /** What a figure shows, for a reader who cannot see it. */
  readonly alt?: string;
  /** Left, top, right and bottom of a figure on its page. */
  readonly bbox?: readonly [number, number, number, number];
  /** What a cell is the heading of. */
  readonly scope?: 'Column' | 'Row';
}

/** A part of a part, by its type in ISO 32000-1, 14.8.4: P, H2, Table, TR … */
export function partOf(doc: PDFKit.PDFDocument, parent: Part, type: string, options: PartOptions = {}): Part {
  // pdfkit knows more options than its types do.
  const part = doc.struct(type, options as object);
  parent.add(part);
  return part;
}

/** The same part however often it is asked for: one that goes on over several pages. */
export function lazily(make: () => Part): () => Part {
  let made: Part | undefined;
  return () => {
    made ??= make();
    return made;
  };
}

/** Rules, page numbers and whatever else is not to be read aloud. */
export function asDecoration(doc: PDFKit.PDFDocument, type: 'Layout' | 'Pagination', draw: () => void): void {
  doc.markContent('Artifact', { type });
  draw();
  doc.endMarkedContent();
}
