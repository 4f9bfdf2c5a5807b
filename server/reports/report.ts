import type { Language } from '../../shared/language/language.ts';
import type { Drawing } from '../../shared/plot/shapes.ts';

export interface Column {
  readonly title: string;
  readonly align: 'left' | 'right';
  readonly share: number;
}

/** A report as a list of blocks. The content is determined here; the PDF and HTML writers determine its appearance. */
export type Block =
  | { readonly kind: 'heading'; readonly text: string }
  /** An important notice, before everything else. */
  | { readonly kind: 'notice'; readonly text: string }
  | { readonly kind: 'verdict'; readonly text: string }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | { readonly kind: 'caution'; readonly items: readonly string[] }
  /** One drawing, tallest first: on paper the tallest with which everything before the page break fits on its page. */
  | {
      readonly kind: 'figure';
      readonly drawings: readonly [Drawing, ...Drawing[]];
      /** For a screen as narrow as a phone, on which the text of the others would be too small. */
      readonly narrow: Drawing;
      readonly caption: string;
    }
  | { readonly kind: 'table'; readonly columns: readonly Column[]; readonly rows: readonly (readonly string[])[] }
  /** Lines to be filled in by hand. */
  | { readonly kind: 'signature'; readonly labels: readonly string[] }
  | { readonly kind: 'pageBreak' };

export interface Report {
  readonly language: Language;
  readonly title: string;
  readonly subtitle: string;
  /** Printed at the bottom of every page: software, burn, checksum of the record. */
  readonly footer: string;
  /** Date of the PDF: of the burn, never of the printing, so that the same record gives the same bytes. */
  readonly dateUtcMs: number | undefined;
  readonly blocks: readonly Block[];
}
