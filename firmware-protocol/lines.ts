/**
 * Encodes and decodes protocol 1 between a bench board and its host as text: one message per line. README.md in this
 * folder is the specification; golden-lines.json contains worked lines with which tests compare this code.
 */
import { crc32, crcDigits } from './crc32.ts';
import { decodeBody } from './decode-body.ts';
import { type BadLine, COMMAND_NAMES, MAX_LINE_BYTES, type Message } from './messages.ts';

export { crc32 } from './crc32.ts';
export * from './messages.ts';

/**
 * Returns the text of a message with its checksum and without a line ending (the sender adds `\n`).
 *
 * @throws RangeError when a value cannot be written on the line (a label with a blank, a count beyond 32 bits …): that
 * is
 *   a mistake of the caller, never of the wire.
 */
export function encodeLine(message: Message): string {
  const sealed = sealLine(bodyOf(message));
  const back = decodeLine(sealed);
  if (back.kind === 'bad') {
    throw new RangeError(
      `This ${message.kind} cannot be written as a line (${back.reason}${back.field ? `: ${back.field}` : ''}): ${sealed}`,
    );
  }
  return sealed;
}

/** Appends the checksum to the words of a line. The checksum covers everything before the `~`, the blank included. */
export function sealLine(body: string): string {
  const covered = `${body} `;
  return `${covered}~${crcDigits(crc32(covered))}`;
}

/**
 * Decodes one line (without its `\n`; a trailing `\r` is allowed). Never throws: for a line that is not a message it
 * returns a `BadLine` with a typed reason. Lines from a board must have a checksum; a host command may lack one,
 * because a person may type it in a serial terminal.
 */
export function decodeLine(text: string): Message | BadLine {
  const line = text.endsWith('\r') ? text.slice(0, -1) : text;
  if (line.length === 0) return { kind: 'bad', reason: 'empty', text };
  if (line.length > MAX_LINE_BYTES) return { kind: 'bad', reason: 'too-long', text: text.slice(0, MAX_LINE_BYTES) };
  if (!PRINTABLE.test(line)) return { kind: 'bad', reason: 'not-ascii', text };

  const mark = line.indexOf('~');
  if (mark < 0) {
    const words = line.trim().split(/ +/);
    if (!(COMMAND_NAMES as readonly string[]).includes(words[0]!)) return { kind: 'bad', reason: 'no-checksum', text };
    return decodeBody(words, text);
  }
  const covered = line.slice(0, mark);
  if (line.slice(mark + 1) !== crcDigits(crc32(covered))) return { kind: 'bad', reason: 'bad-checksum', text };
  if (!covered.endsWith(' ')) return { kind: 'bad', reason: 'bad-field', field: 'blank before ~', text };
  return decodeBody(covered.slice(0, -1).split(' '), text);
}

const PRINTABLE = /^[ -~]+$/;

function bodyOf(message: Message): string {
  switch (message.kind) {
    case 'scan': {
      const word = message.repeated ? 'again' : 'scan';
      return [word, message.boot, message.sequence, message.uptimeMs, ...message.readings].join(' ');
    }
    case 'hello':
      return (
        `hello protocol=${message.protocol} id=${message.identity ?? 'none'} boot=${message.boot} ` +
        `name=${message.name} firmware=${message.firmware} depth=${message.repeatDepth} ` +
        `period=${message.periodMs} channels=${message.channels}`
      );
    case 'channel': {
      const form =
        message.form.kind === 'value' ? 'form=value' : `form=thermocouple-uv cold=${message.form.coldJunction}`;
      return (
        `channel index=${message.index} quantity=${message.quantity} unit=${message.unit} scale=${message.scale} ` +
        `probe=${message.probe} resolution=${message.resolution} ${form} label=${message.label}`
      );
    }
    case 'ok':
      return [
        `ok ${message.command}`,
        ...(message.oldest === undefined ? [] : [`oldest=${message.oldest}`]),
        ...(message.periodMs === undefined ? [] : [`ms=${message.periodMs}`]),
        ...(message.identity === undefined ? [] : [`id=${message.identity}`]),
      ].join(' ');
    case 'refused':
      return `no ${message.command} ${message.reason}${message.oldest === undefined ? '' : ` oldest=${message.oldest}`}`;
    case 'describe':
    case 'blink':
      return message.kind;
    case 'identity':
      return `identity ${message.identity}`;
    case 'period':
      return `period ${message.periodMs}`;
    case 'resend':
      return `resend ${message.boot} ${message.from} ${message.to}`;
  }
}
