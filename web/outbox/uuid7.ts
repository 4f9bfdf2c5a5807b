/**
 * A UUID version 7 (RFC 9562, section 5.7): 48 bits of Unix milliseconds, then random bits.
 * Implemented here because `crypto.randomUUID` does not exist on a page opened over plain http by host name.
 */
export function uuid7(
  nowMs: number = Date.now(),
  random: Uint8Array = crypto.getRandomValues(new Uint8Array(10)),
): string {
  const bytes = new Uint8Array(16);
  for (let index = 5, rest = nowMs; index >= 0; index -= 1, rest = Math.floor(rest / 256)) bytes[index] = rest % 256;
  bytes.set(random.subarray(0, 10), 6);
  bytes[6] = ((bytes[6] ?? 0) & 0x0f) | 0x70;
  bytes[8] = ((bytes[8] ?? 0) & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
}
