import { createRandom } from '../../shared/statistics/random.ts';

/**
 * A UUID of version 7 (RFC 9562) derived from a name instead of random bits, so that simulated things have the same
 * identity in every run. `utcMs` is the creation time encoded in the identifier.
 */
export function namedUuid(name: string, utcMs: number): string {
  const random = createRandom(`uuid ${name}`);
  const hex = (value: number, digits: number) => value.toString(16).padStart(digits, '0');
  const time = hex(utcMs, 12);
  const low = hex(random.word(), 8);
  const high = hex(random.word(), 8);
  const variant = hex(0x8000 | (random.word() & 0x3fff), 4);
  return `${time.slice(0, 8)}-${time.slice(8)}-7${low.slice(0, 3)}-${variant}-${low.slice(3, 7)}${high}`;
}
