import type { VNode } from 'preact';

/** Figures of change in the sentences of the service, with the word that says which way; the 95 % of confidence is none. */
const change =
  /((?<![\d.,])(?!95[ \u00a0]%)\d[\d.,\u202f]*[ \u00a0](?:%|points?|K|min|s)(?: (?:less|more|lower|higher|shorter|longer|de moins|de plus))?)/;

/** A sentence of the service with its figures made strong. */
export function Emphasis({ text }: { text: string }): VNode {
  return <>{text.split(change).map((part, place) => (place % 2 === 1 ? <b key={place}>{part}</b> : part))}</>;
}
