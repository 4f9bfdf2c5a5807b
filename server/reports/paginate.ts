/** Distributes the pieces of a document over pages. Pure: uses heights only, not the content. */

/** What cannot be divided between two pages. */
export interface Piece {
  readonly heightPt: number;
  /** Space above it; none at the top of a page. */
  readonly spacePt: number;
  /** Whether the piece after it has to be on the same page. */
  readonly withNext?: boolean;
  /** Whether the piece begins a new page, provided the one before is filled enough. */
  readonly startsPage?: boolean;
  /** Height of the head that is repeated where the piece is the first on its page. */
  readonly headPt?: number;
}

/** A page is filled to at least this share of its height, as far as there is something to fill it with. */
export const leastFilled = 0.25;

/**
 * Fill pages from the top; then move pieces from the last but one to the last page until that is filled enough.
 * @param roomPt height of a page; a higher piece has a page of its own
 * @returns the pieces of each page, by their indices
 */
export function paginate(pieces: readonly Piece[], roomPt: number): number[][] {
  const leastPt = leastFilled * roomPt;
  const height = (page: readonly number[]) => heightOf(pieces, page);
  const pages: number[][] = [];
  for (const group of groupsOf(pieces)) {
    const page = pages.at(-1);
    const isChapter = pieces[group[0]!]!.startsPage === true;
    const fits = page && height([...page, ...group]) <= roomPt;
    if (!page || !fits || (isChapter && height(page) >= leastPt)) pages.push([...group]);
    else page.push(...group);
  }
  const [before, last] = pages.slice(-2);
  while (before && last && !pieces[last[0]!]!.startsPage && height(last) < leastPt) {
    const moved = groupsOf(pieces, before).at(-1)!;
    const isFilled = height(before.slice(0, -moved.length)) >= leastPt;
    if (!isFilled || height([...moved, ...last]) > roomPt) break;
    before.splice(-moved.length);
    last.unshift(...moved);
  }
  return pages;
}

/** Height of the content of one page, from its top. */
export function heightOf(pieces: readonly Piece[], page: readonly number[]): number {
  return page.reduce((sum, index, place) => {
    const { heightPt, spacePt, headPt = 0 } = pieces[index]!;
    return sum + heightPt + (place === 0 ? headPt : spacePt);
  }, 0);
}

/** Pieces that have to be on one page. */
function groupsOf(pieces: readonly Piece[], indices: readonly number[] = [...pieces.keys()]): number[][] {
  const groups: number[][] = [];
  let isOpen = false;
  for (const index of indices) {
    if (isOpen) groups.at(-1)!.push(index);
    else groups.push([index]);
    isOpen = pieces[index]!.withNext === true;
  }
  return groups;
}
