import { expect, test } from 'vitest';
import { agoSOf } from '../../web/burn/time-of-day.ts';

const paris = 'Europe/Paris';

test('a time of day means its last occurrence within twelve hours, at the start of the minute', () => {
  const now = Date.UTC(2026, 4, 2, 8, 30, 20);
  expect(agoSOf('10:30', now, paris)).toBe(20);
  expect(agoSOf('10:05', now, paris)).toBe(25 * 60 + 20);
  expect(agoSOf('23:59', now, paris)).toBe((10 * 60 + 31) * 60 + 20);
  expect(agoSOf('10:31', now, paris)).toBeUndefined();
});

// European summer time ends on the last Sunday of October at 01:00 UTC, and begins on that of March (Directive 2000/84/EC).
test('when the clock is set back, a repeated hour is the later one; when forward, the skipped hour does not exist', () => {
  expect(agoSOf('02:30', Date.UTC(2026, 9, 25, 2, 0), paris)).toBe(30 * 60);
  expect(agoSOf('01:30', Date.UTC(2026, 9, 25, 2, 0), paris)).toBe(150 * 60);
  expect(agoSOf('02:30', Date.UTC(2026, 2, 29, 2, 0), paris)).toBeUndefined();
  expect(agoSOf('01:30', Date.UTC(2026, 2, 29, 2, 0), paris)).toBe(90 * 60);
});
