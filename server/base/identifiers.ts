import { createHash, randomBytes } from 'node:crypto';

/**
 * A UUID of version 7 (RFC 9562, section 5.7): 48 bits of UTC milliseconds, then random bits, so that identifiers sort
 * by the time they were made.
 */
export function newId(nowMs: number): string {
  return asUuid7(randomBytes(16), nowMs);
}

/** The same with a hash of `name` instead of random bits: the same object, described twice, has the same identifier. */
export function derivedId(name: string, nowMs: number): string {
  return asUuid7(createHash('sha256').update(name).digest().subarray(0, 16), nowMs);
}

function asUuid7(bytes: Buffer, nowMs: number): string {
  bytes.writeUIntBE(Math.max(0, Math.floor(nowMs)), 0, 6);
  bytes[6] = (bytes[6]! & 0x0f) | 0x70;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  const hex = bytes.toString('hex');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
