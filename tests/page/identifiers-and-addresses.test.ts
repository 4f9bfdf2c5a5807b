import { expect, test } from 'vitest';
import { parseRoute, type Route, routeHash } from '../../web/addresses/router.ts';
import { uuid7 } from '../../web/outbox/uuid7.ts';
import fc from '../support/properties.ts';

// RFC 9562, appendix A.6: the example of a UUID version 7.
test('a UUID version 7 is laid out as in the example of RFC 9562', () => {
  const random = Uint8Array.of(0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f);
  expect(uuid7(0x017f22e279b0, random)).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f');
});

test('identifiers made later sort later, whatever their random part', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 0, max: 2 ** 47 }),
      fc.integer({ min: 1, max: 1e6 }),
      fc.uint8Array({ minLength: 10, maxLength: 10 }),
      fc.uint8Array({ minLength: 10, maxLength: 10 }),
      (at, later, a, b) => uuid7(at, a) < uuid7(at + later, b),
    ),
  );
});

const id = fc.uuid();
const routes: fc.Arbitrary<Route> = fc.oneof(
  fc.constantFrom<Route>({ at: 'now' }, { at: 'burns' }, { at: 'rig' }, { at: 'settings' }, { at: 'cautions' }),
  id.map((each): Route => ({ at: 'run', id: each })),
  id.map((each): Route => ({ at: 'burn', id: each })),
  id.map((each): Route => ({ at: 'wrapUp', id: each })),
  fc.option(id, { nil: undefined }).map((each): Route => (each ? { at: 'describe', id: each } : { at: 'describe' })),
  fc.array(id, { maxLength: 5 }).map((ids): Route => ({ at: 'overlay', ids })),
);

test('every screen has an address that leads back to it', () => {
  fc.assert(
    fc.property(routes, (route) => {
      expect(parseRoute(routeHash(route))).toEqual(route);
    }),
  );
});

test('an address without a screen is recognised', () => {
  expect(parseRoute('#/kettle')).toEqual({ at: 'unknown' });
  expect(parseRoute('#/burns/1/dance')).toEqual({ at: 'unknown' });
});
