/** Sizes of the pages that reports are printed on, in points of 1/72 inch: A4 as in ISO 216, Letter as in ANSI/ASME Y14.1, both from memory. */
export const papers = {
  a4: { widthPt: 595.28, heightPt: 841.89 },
  letter: { widthPt: 612, heightPt: 792 },
} as const;
export type Paper = keyof typeof papers;

export const marginPt = 45;

/** Width of a drawing whose text is legible on a phone, where it is shown about a third wider. */
export const narrowWidthPt = 270;

/** Width available for text and drawings on a paper. */
export function textWidthPt(paper: Paper): number {
  return papers[paper].widthPt - 2 * marginPt;
}
