import { expect, it } from 'vitest';
import { heightOf, leastFilled, type Piece, paginate } from '../../server/reports/paginate.ts';
import fc from '../support/properties.ts';

const roomPt = 700;
const leastPt = leastFilled * roomPt;
/** Rows of a table, lines, headings and figures: none as high as half a page. */
const piece: fc.Arbitrary<Piece> = fc.record({
  heightPt: fc.oneof(fc.constant(16), fc.integer({ min: 10, max: 60 }), fc.integer({ min: 100, max: 250 })),
  spacePt: fc.integer({ min: 0, max: 14 }),
  withNext: fc.integer({ min: 0, max: 9 }).map((chance) => chance < 2),
  startsPage: fc.integer({ min: 0, max: 19 }).map((chance) => chance === 0),
  headPt: fc.constantFrom(0, 16, 28),
});
const documents = fc.array(piece, { minLength: 1, maxLength: 120 });

/**
 * Pieces that must be together are in one group; groups higher than the space that a page can leave empty are not made
 * here.
 */
const hasLongGroups = (pieces: readonly Piece[]) => {
  let groupPt = 0;
  return pieces.some(({ heightPt, spacePt, headPt = 0, withNext }) => {
    groupPt += heightPt + spacePt + headPt;
    const isLong = groupPt > roomPt - 2 * leastPt;
    if (!withNext) groupPt = 0;
    return isLong;
  });
};

it('every piece is placed once and in order, and no page is overfull', () => {
  fc.assert(
    fc.property(documents, (pieces) => {
      fc.pre(!hasLongGroups(pieces));
      const pages = paginate(pieces, roomPt);
      expect(pages.flat()).toEqual([...pieces.keys()]);
      for (const page of pages) expect(heightOf(pieces, page)).toBeLessThanOrEqual(roomPt);
    }),
  );
});

it('no page is nearly empty, except a last one that begins a chapter of its own', () => {
  fc.assert(
    fc.property(documents, (pieces) => {
      fc.pre(!hasLongGroups(pieces));
      const pages = paginate(pieces, roomPt);
      for (const [number, page] of pages.entries()) {
        const isLastChapter = number === pages.length - 1 && pieces[page[0]!]!.startsPage === true;
        if (pages.length > 1 && !isLastChapter) expect(heightOf(pieces, page)).toBeGreaterThanOrEqual(leastPt);
      }
    }),
  );
});

it('a piece that has to be with the next one never ends a page', () => {
  fc.assert(
    fc.property(documents, (pieces) => {
      fc.pre(!hasLongGroups(pieces));
      for (const page of paginate(pieces, roomPt).slice(0, -1)) expect(pieces[page.at(-1)!]!.withNext).not.toBe(true);
    }),
  );
});
