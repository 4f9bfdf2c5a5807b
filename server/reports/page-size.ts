/** Sizes of the pages that reports are printed on, in points of 1/72 inch: A4 as in ISO 216, Letter as in ANSI/ASME Y14.1, both from memory. */
export const papers = {
  a4: { widthPt: 595.28, heightPt: 841.89 },
  letter: { widthPt: 612, heightPt: 792 },
} as const;
export type Paper = keyof typeof papers;

export const marginPt = 45;

/** Width of a drawing whose signs can be read on a phone, where it is about a third wider. */
export const narrowWidthPt = 270;

/** Width that text and drawings may take on a paper. */
export function textWidthPt(paper: Paper): number {
  return papers[paper].widthPt - 2 * marginPt;
}
