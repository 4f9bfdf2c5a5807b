/**
 * Marks in the order in which they arrived on this page. Identifiers contain a time too, but by the clock of the
 * machine that made them: the clocks of a phone and of the service need not agree, and in a demonstration they never
 * do.
 */
const arrived: string[] = [];
/** More than a person undoes in a row. */
const remembered = 200;

/** Those created on this page. */
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

/** Position in the order of arrival; -1 for a mark that existed when the page opened. */
export function orderOf(markId: string): number {
  return arrived.indexOf(markId);
}
