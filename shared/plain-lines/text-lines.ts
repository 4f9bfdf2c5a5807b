/** Tells the text of a board from what arrives at a wrong speed. */

/** The least share of characters that do not occur in text. */
const GARBLED_SHARE = 0.15;
/** A degree sign of another character set is no damage, and neither is a colour of a terminal. */
const HARMLESS = /\ufffd(?= ?[CFK]\b)|\p{Cc}\[[0-9;]*[A-Za-z]|\t/gu;
const NO_TEXT = /[\p{Cc}\p{Co}\p{Cn}\ufffd]/gu;

/** The lines that are text; none where most are not: the odd line of chance can be read as anything. */
export function textLines(lines: readonly string[]): string[] {
  const texts = lines.filter((line) => !isGarbled(line));
  return 2 * texts.length < lines.length ? [] : texts;
}

function isGarbled(line: string): boolean {
  const text = line.replace(HARMLESS, '');
  return (text.match(NO_TEXT)?.length ?? 0) > GARBLED_SHARE * text.length;
}
