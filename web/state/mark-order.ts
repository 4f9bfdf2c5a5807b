/**
 * Marks in the order in which this page came to know them. Identifiers carry a time too, but of whoever made them:
 * the clocks of a phone and of the service need not agree, and in a demonstration they never do.
 */
const arrived: string[] = [];
/** Nobody takes back more than this many in a row. */
const remembered = 200;

/** Those that were made on this page. */
const madeHere = new Set<string>();

export function noteOwnMark(markId: string): void {
  madeHere.add(markId);
  noteMark(markId);
}

export function isMadeHere(markId: string): boolean {
  return madeHere.has(markId);
}

export function noteMark(markId: string): void {
  if (arrived.includes(markId)) return;
  arrived.push(markId);
  if (arrived.length > remembered) arrived.shift();
}

/** How late a mark arrived; -1 for one that was there when the page opened. */
export function orderOf(markId: string): number {
  return arrived.indexOf(markId);
}
