import { explainLine, type LineMistake } from '../../firmware-protocol/explain-line.ts';

/** A line that was refused, and the first mistake in it. */
export interface RefusedLine {
  word: 'hello' | 'channel' | 'scan';
  /** Counted from 1, where the line contains it. */
  channel?: number;
  mistake: LineMistake;
}

/** This many scans refused in a row are not due to a bad cable. */
const SCANS_IN_A_ROW = 3;
/** A line of the board, even with mistakes in it. */
const WORD = /^\s*(hello|channel|scan|again)\b/i;

/** Remembers which lines of a board were refused, until a valid one replaces them. */
export class RefusedLines {
  readonly #described = new Map<string, RefusedLine>();
  #scan: RefusedLine | null = null;
  #scansInARow = 0;

  /** The refused line that prevents the board from being described; null when none is known. */
  get ofDescription(): RefusedLine | null {
    return this.#described.values().next().value ?? null;
  }

  /** The mistake in all recent scans; null when some are valid. */
  get ofScans(): RefusedLine | null {
    return this.#scansInARow >= SCANS_IN_A_ROW ? this.#scan : null;
  }

  /** @returns whether more is known now than before */
  refuse(text: string): boolean {
    const word = WORD.exec(text)?.[1]?.toLowerCase();
    if (word === undefined) return false;
    if (word === 'scan' || word === 'again') {
      this.#scansInARow++;
      if (this.#scansInARow !== SCANS_IN_A_ROW) return false;
      this.#scan = refusedLine('scan', text);
      return this.#scan !== null;
    }
    const refused = refusedLine(word as 'hello' | 'channel', text);
    if (!refused) return false;
    this.#described.set(keyOf(refused), refused);
    return true;
  }

  scanTaken(): void {
    this.#scansInARow = 0;
    this.#scan = null;
  }

  helloTaken(): void {
    this.#described.clear();
  }

  channelTaken(channel: number): void {
    this.#described.delete(keyOf({ word: 'channel', channel }));
  }

  /** The description is complete, even if other lines were refused. */
  described(): void {
    this.#described.clear();
  }
}

function keyOf({ word, channel }: Pick<RefusedLine, 'word' | 'channel'>): string {
  return `${word} ${channel ?? ''}`;
}

function refusedLine(word: RefusedLine['word'], text: string): RefusedLine | null {
  const [mistake] = explainLine(text);
  if (!mistake) return null;
  const channel = /\bindex=([0-9]{1,2})\b/i.exec(text)?.[1];
  return { word, ...(word === 'channel' && channel !== undefined && { channel: Number(channel) }), mistake };
}
