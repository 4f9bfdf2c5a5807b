/** Explains why a line is not a message, and what is expected instead, for the author of a board's firmware. */
import { checksumMistakes, cutAtMark, type SealedText } from './explain-checksum.ts';
import {
  checkOneOf,
  checkPositiveDecimal,
  checkPositiveUpTo,
  checkReading,
  checkToken,
  checkUint32,
  checkUuid,
  type FieldCheck,
} from './explain-fields.ts';
import type { LineMistake } from './line-mistakes.ts';
import { decodeLine } from './lines.ts';
import {
  COMMAND_NAMES,
  MAX_CHANNELS,
  MAX_LINE_BYTES,
  PERIOD_LIMITS_MS,
  PROTOCOL_VERSION,
  REFUSAL_REASONS,
} from './messages.ts';

export * from './line-mistakes.ts';

export interface LineContext {
  /** Number of readings in a scan of this board, by its hello. */
  channels?: number | undefined;
  /** The line before this one. */
  previous?: string | undefined;
}

const BOARD_WORDS = ['scan', 'again', 'hello', 'channel', 'ok', 'no'] as const;

/**
 * Returns the mistakes in a line of a board, each byte one character, without its `\n`. Empty for a correct message; at
 * least one mistake for a line that `decodeLine` refuses. Several where correcting one would reveal the next.
 */
export function explainLine(text: string, { channels, previous }: LineContext = {}): LineMistake[] {
  const line = text.endsWith('\r') ? text.slice(0, -1) : text;
  const decoded = decodeLine(text);
  if (decoded.kind === 'bad' && decoded.reason === 'empty') return [];
  if (line.includes('\r')) return [{ code: 'carriage-return-only', found: '\\r', expected: '\\n' }];
  if (line.length > MAX_LINE_BYTES) {
    return [{ code: 'too-long', found: String(line.length), expected: String(MAX_LINE_BYTES) }];
  }
  const sealed = cutAtMark(line) ?? cutAtOtherMark(line);
  const body = sealed?.covered ?? line;
  const [word = ''] = body.trim().split(/[ \t]+/);
  const isOfBoard = (BOARD_WORDS as readonly string[]).includes(word.toLowerCase());
  if ((COMMAND_NAMES as readonly string[]).includes(word)) return [{ code: 'echo', found: word, expected: '' }];
  if (!sealed && !isOfBoard) return [{ code: 'other-text', found: readable(line), expected: BOARD_WORDS.join(', ') }];

  const ofSeal = sealMistakes(line, sealed, previous === undefined ? undefined : cutAtMark(previous));
  // Further mistakes in a damaged line come from the damage, not from the firmware.
  if (ofSeal.some(({ code }) => code === 'damaged' || code === 'mark-twice')) return ofSeal;
  const mistakes = [...ofSeal, ...spacingMistakes(body, sealed !== undefined), ...wordMistakes(body, channels)];
  if (mistakes.length > 0 || decoded.kind !== 'bad') return mistakes;
  return [{ code: 'not-understood', field: decoded.field ?? decoded.reason, found: readable(line), expected: '' }];
}

/** Finds a checksum after another sign, or after none. */
function cutAtOtherMark(line: string): (SealedText & { mark: string }) | undefined {
  const [, covered, mark, digits] = /^(.* )((?:[^ ]{0,4}[^ 0-9A-Za-z_-])?)([0-9A-Fa-f]{8}) *$/.exec(line) ?? [];
  if (covered === undefined || mark === undefined || digits === undefined) return undefined;
  // Eight digits at the end of a line may be a reading: they are a checksum if they match.
  const fits = checksumMistakes({ covered, digits }).every(({ code }) => code !== 'damaged');
  return fits || /^[^0-9A-Za-z=]+$/.test(mark) ? { covered, digits, mark } : undefined;
}

function sealMistakes(
  line: string,
  sealed: (SealedText & { mark?: string }) | undefined,
  previous: SealedText | undefined,
): LineMistake[] {
  if (!sealed) return [{ code: 'no-checksum', field: 'checksum', found: '', expected: rightSeal(line) }];
  if (sealed.digits.includes('~')) {
    const covered = line.slice(0, line.lastIndexOf('~'));
    const found = sealed.covered.slice(sealed.covered.lastIndexOf(' ') + 1);
    return [{ code: 'mark-twice', found: `${found}~`, expected: rightSeal(covered.replaceAll('~', '-')) }];
  }
  const mistakes = checksumMistakes(sealed, previous);
  if (sealed.mark !== undefined) return [{ code: 'other-mark', found: sealed.mark, expected: '~' }, ...mistakes];
  const isNamed = mistakes.some(({ code }) => code === 'no-blank-before-checksum' || code === 'damaged');
  if (sealed.covered.endsWith(' ') || isNamed) return mistakes;
  return [
    { code: 'no-blank-before-checksum', found: line.slice(-12), expected: rightSeal(sealed.covered) },
    ...mistakes,
  ];
}

/** Returns the expected end of the line. */
function rightSeal(body: string): string {
  const covered = `${body.replace(/ +$/, '')} `;
  const [right] = checksumMistakes({ covered, digits: '' });
  return ` ~${right?.expected}`;
}

/** Checks what separates the words, and characters that are not allowed anywhere. */
function spacingMistakes(body: string, isSealed: boolean): LineMistake[] {
  const mistakes: LineMistake[] = [];
  if (body.includes('\t')) mistakes.push({ code: 'tab', found: '\\t', expected: ' ' });
  const strange = /[^\t -~]+/.exec(body)?.[0];
  if (strange !== undefined) {
    const field = /([a-z]+)=[^ ]*$/.exec(body.slice(0, body.indexOf(strange)))?.[1];
    mistakes.push({ code: 'not-ascii', ...(field && { field }), found: readable(strange), expected: '32 … 126' });
  }
  if (body.startsWith(' '))
    mistakes.push({ code: 'blank-at-start', found: body.slice(0, 12), expected: body.trimStart().slice(0, 12) });
  const words = isSealed ? body.trimStart() : body.trim();
  const doubled = /[^ ]* {2,}[^ ]*/.exec(words)?.[0];
  if (doubled !== undefined)
    mistakes.push({ code: 'two-blanks', found: doubled, expected: doubled.replace(/ +/, ' ') });
  return mistakes;
}

function wordMistakes(body: string, channels: number | undefined): LineMistake[] {
  const [first = '', ...rest] = body.split(/[ \t]+/).filter((each) => each !== '');
  const word = first.toLowerCase();
  const isKnown = (BOARD_WORDS as readonly string[]).includes(word);
  if (!isKnown) return [{ code: 'unknown-word', found: readable(first), expected: BOARD_WORDS.join(', ') }];
  const ofWord: LineMistake[] = first === word ? [] : [{ code: 'word-capitals', found: first, expected: word }];
  return [...ofWord, ...EXPLAIN[word as (typeof BOARD_WORDS)[number]](rest, channels)];
}

const EXPLAIN: Record<
  (typeof BOARD_WORDS)[number],
  (words: readonly string[], channels: number | undefined) => LineMistake[]
> = {
  scan: scanMistakes,
  again: scanMistakes,
  hello: (words) => pairMistakes(words, HELLO),
  channel: channelMistakes,
  ok: okMistakes,
  no: refusalMistakes,
};

function scanMistakes(words: readonly string[], channels: number | undefined): LineMistake[] {
  const [boot, sequence, uptime, ...readings] = words;
  if (boot === undefined || sequence === undefined || uptime === undefined || readings.length === 0) {
    const expected = 'BOOT SEQUENCE UPTIME READING …';
    return [{ code: 'too-few-words', found: words.join(' '), expected }];
  }
  const field = (name: string, text: string, check: FieldCheck) => named(name, check(text));
  const count = channels ?? Math.min(readings.length, MAX_CHANNELS);
  const counted: LineMistake[] = [];
  if (readings.length !== count) {
    const code = readings.length < count ? 'too-few-readings' : 'too-many-readings';
    counted.push({ code, field: 'readings', found: String(readings.length), expected: String(count) });
  }
  return [
    ...field('boot', boot, checkUint32),
    ...field('sequence', sequence, checkUint32),
    ...field('uptime', uptime, checkUint32),
    ...readings.flatMap((text, index) => field(`reading ${index + 1}`, text, checkReading)),
    ...counted,
  ];
}

function named(field: string, mistake: ReturnType<FieldCheck>): LineMistake[] {
  return mistake ? [{ ...mistake, field }] : [];
}

type Keys = Record<string, FieldCheck>;

const HELLO: Keys = {
  protocol: (text) =>
    text === String(PROTOCOL_VERSION)
      ? undefined
      : (checkUint32(text) ?? { code: 'protocol-other', found: text, expected: String(PROTOCOL_VERSION) }),
  id: checkUuid(true),
  boot: checkUint32,
  name: checkToken,
  firmware: checkToken,
  depth: checkUint32,
  period: checkPositiveUpTo(PERIOD_LIMITS_MS.max),
  channels: checkPositiveUpTo(MAX_CHANNELS),
};

const FORMS = ['value', 'thermocouple-uv'];

const CHANNEL: Keys = {
  index: checkPositiveUpTo(MAX_CHANNELS),
  quantity: checkToken,
  unit: checkToken,
  scale: checkPositiveDecimal,
  probe: checkToken,
  resolution: checkPositiveDecimal,
  form: checkOneOf('form-unknown', FORMS),
  label: checkToken,
};

function channelMistakes(words: readonly string[]): LineMistake[] {
  const isVoltage = words.includes('form=thermocouple-uv');
  return pairMistakes(words, isVoltage ? { ...CHANNEL, cold: checkPositiveUpTo(MAX_CHANNELS) } : CHANNEL);
}

/** @param keys every required key, with the check of its value */
function pairMistakes(words: readonly string[], keys: Keys): LineMistake[] {
  const { pairs, mistakes } = readWords(words);
  const unknown = [...pairs.keys()].filter((key) => keys[key] === undefined);
  for (const [key, check] of Object.entries(keys)) {
    const text = pairs.get(key);
    const misspelt = unknown.find((each) => each.toLowerCase() === key);
    if (text !== undefined) mistakes.push(...named(key, check(text)));
    else if (misspelt !== undefined)
      mistakes.push({ code: 'key-capitals', field: key, found: misspelt, expected: key });
    else mistakes.push({ code: 'key-missing', field: key, found: unknown.join(' '), expected: `${key}=` });
  }
  return mistakes;
}

function readWords(words: readonly string[]): { pairs: Map<string, string>; mistakes: LineMistake[] } {
  const pairs = new Map<string, string>();
  const mistakes: LineMistake[] = [];
  let last: string | undefined;
  for (const word of words) {
    const at = word.indexOf('=');
    const key = word.slice(0, at);
    if (at < 1) {
      // A blank within a value: the word after it belongs to the key before.
      const before = last === undefined ? '' : `${pairs.get(last) ?? ''}`;
      const mistake = {
        found: `${before} ${word}`.trim(),
        expected: last === undefined ? 'key=value' : `${before}_${word}`,
      };
      mistakes.push({ code: 'word-without-key', ...(last !== undefined && { field: last }), ...mistake });
      if (last !== undefined) pairs.set(last, `${before}_${word}`);
    } else if (pairs.has(key)) {
      mistakes.push({ code: 'key-twice', field: key, found: word, expected: `${key}=${pairs.get(key)}` });
    } else {
      pairs.set(key, word.slice(at + 1));
      last = key;
    }
  }
  return { pairs, mistakes };
}

function okMistakes(words: readonly string[]): LineMistake[] {
  const [command, ...rest] = words;
  if (command === undefined) return [{ code: 'too-few-words', found: '', expected: 'ok COMMAND' }];
  const { pairs, mistakes } = readWords(rest);
  return [
    ...named('command', checkOneOf('command-unknown', COMMAND_NAMES)(command)),
    ...mistakes,
    ...optional(pairs, 'oldest', checkUint32),
    ...optional(pairs, 'ms', checkPositiveUpTo(PERIOD_LIMITS_MS.max)),
    ...optional(pairs, 'id', checkUuid(false)),
  ];
}

function refusalMistakes(words: readonly string[]): LineMistake[] {
  const [command, reason, ...rest] = words;
  if (command === undefined || reason === undefined) {
    return [{ code: 'too-few-words', found: words.join(' '), expected: 'no COMMAND REASON' }];
  }
  const { pairs, mistakes } = readWords(rest);
  return [
    ...named('command', checkToken(command)),
    ...named('reason', checkOneOf('reason-unknown', REFUSAL_REASONS)(reason)),
    ...mistakes,
    ...optional(pairs, 'oldest', checkUint32),
  ];
}

function optional(pairs: Map<string, string>, key: string, check: FieldCheck): LineMistake[] {
  const text = pairs.get(key);
  return text === undefined ? [] : named(key, check(text));
}

/** Returns bytes as readable text: decoded from UTF-8 where valid, without control characters. */
function readable(bytes: string): string {
  const hex = (character: string) => character.charCodeAt(0).toString(16).padStart(2, '0');
  let text = bytes;
  try {
    text = decodeURIComponent(bytes.replace(/[^!-$&-~]/g, (character) => `%${hex(character)}`));
  } catch {
    // Not UTF-8: each byte is shown as the character of its number.
  }
  return text.replace(/\p{Cc}/gu, (control) => `\\x${hex(control)}`);
}
