import {
  type ChannelReading,
  FAULT_NAMES,
  type FaultName,
  PERIOD_LIMITS_MS,
  REFUSAL_REASONS,
  type RefusalReason,
} from './messages.ts';

/**
 * Reads and writes the text of single fields. Every reader returns undefined for text that differs from what the
 * matching writer produces where that matters (no leading zeros, no plus sign): each value has one spelling.
 */

const UINT = /^(0|[1-9][0-9]{0,9})$/;
const INT = /^(0|-?[1-9][0-9]{0,9})$/;
const DECIMAL = /^[0-9]{1,12}(\.[0-9]{1,12})?([eE][+-]?[0-9]{1,2})?$/;
const TOKEN = /^[!-}]{1,32}$/;
const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/;

export function readUint32(text: string): number | undefined {
  if (!UINT.test(text)) return undefined;
  const value = Number(text);
  return value <= 0xffffffff ? value : undefined;
}

export function readUintUpTo(text: string, max: number): number | undefined {
  const value = readUint32(text);
  return value !== undefined && value <= max ? value : undefined;
}

export function readPositiveUpTo(text: string, max: number): number | undefined {
  const value = readUintUpTo(text, max);
  return value !== undefined && value >= 1 ? value : undefined;
}

export function readPeriodMs(text: string): number | undefined {
  const value = readUintUpTo(text, PERIOD_LIMITS_MS.max);
  return value !== undefined && value >= PERIOD_LIMITS_MS.min ? value : undefined;
}

/** A finite number above 0, for scales and resolutions. */
export function readPositiveDecimal(text: string): number | undefined {
  if (!DECIMAL.test(text)) return undefined;
  const value = Number(text);
  return value > 0 ? value : undefined;
}

/** Printable ASCII without blank and without `~`, 1 to 32 characters: names, labels, UCUM codes. */
export function readToken(text: string): string | undefined {
  return TOKEN.test(text) ? text : undefined;
}

export function readUuid(text: string): string | undefined {
  return UUID.test(text) ? text : undefined;
}

export function readReading(text: string): ChannelReading | undefined {
  if (INT.test(text)) {
    const value = Number(text);
    return value >= -0x80000000 && value <= 0x7fffffff ? value : undefined;
  }
  return (FAULT_NAMES as readonly string[]).includes(text) ? (text as FaultName) : undefined;
}

export function readRefusalReason(text: string): RefusalReason | undefined {
  return (REFUSAL_REASONS as readonly string[]).includes(text) ? (text as RefusalReason) : undefined;
}

/**
 * Returns `key=value` words as a map, or undefined when a word has no `=` or a key occurs twice. Unknown keys are for
 * newer readers and are ignored.
 */
export function readPairs(words: readonly string[]): Map<string, string> | undefined {
  const pairs = new Map<string, string>();
  for (const word of words) {
    const at = word.indexOf('=');
    if (at < 1) return undefined;
    const key = word.slice(0, at);
    if (pairs.has(key)) return undefined;
    pairs.set(key, word.slice(at + 1));
  }
  return pairs;
}
