import type { Language } from '../../shared/language/language.ts';
import type { Drawing } from '../../shared/plot/shapes.ts';

/** A report as a list of blocks. What it says is decided here once; how it looks is the business of the PDF and HTML writers. */
export type Block =
  | { readonly kind: 'heading'; readonly text: string }
  | { readonly kind: 'verdict'; readonly text: string }
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  | { readonly kind: 'caution'; readonly items: readonly string[] }
  | { readonly kind: 'figure'; readonly drawing: Drawing; readonly caption: string }
  | {
      readonly kind: 'table';
      readonly columns: readonly { readonly title: string; readonly align: 'left' | 'right'; readonly share: number }[];
      readonly rows: readonly (readonly string[])[];
    }
  | { readonly kind: 'pageBreak' };

export interface Report {
  readonly language: Language;
  readonly title: string;
  readonly subtitle: string;
  /** Stands at the foot of every page: software, method version, checksum of the record. */
  readonly footer: string;
  /** Date the PDF carries: of the burn, never of the printing, so that the same record gives the same bytes. */
  readonly dateUtcMs: number | undefined;
  readonly blocks: readonly Block[];
}
