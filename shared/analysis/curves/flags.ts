/** Marks which readings of a channel are not used, and why: one code per reading, returned as stretches of time. */
import type { Flag } from '../../contract/results.ts';
import type { Curve } from './channel-curve.ts';

export type FlagCode = Flag['code'];
const CODES: readonly FlagCode[] = [
  'gap',
  'open',
  'shorted',
  'outOfRange',
  'excluded',
  'spike',
  'stuck',
  'moved',
  'outOfWater',
];

/** A curve with its flags. Flagging a reading makes it NaN in the curve; the record is not changed. */
export class FlaggedCurve {
  readonly curve: Curve;
  /** 0 for a reading that is used, else 1 + index of its code. */
  private readonly codes: Uint8Array;
  private readonly missedScans: Flag[] = [];
  private flaggedCount = 0;

  constructor(curve: Curve) {
    this.curve = curve;
    this.codes = new Uint8Array(curve.timeS.length);
  }

  /** Flags a reading; a reading that is flagged already does not change its code. */
  flag(index: number, code: FlagCode): void {
    if (this.codes[index] === 0) {
      this.codes[index] = 1 + CODES.indexOf(code);
      this.flaggedCount += 1;
    }
    this.curve.value[index] = Number.NaN;
  }

  flagBetween(fromS: number, toS: number, code: FlagCode): void {
    const { timeS } = this.curve;
    for (let index = 0; index < timeS.length; index++) {
      if (timeS[index]! >= fromS && timeS[index]! <= toS) this.flag(index, code);
    }
  }

  /** Adds a stretch without any scan. */
  flagMissedScans(fromS: number, toS: number): void {
    this.missedScans.push({ channelId: this.curve.channel.id, code: 'gap', fromS, toS });
  }

  isUsed(index: number): boolean {
    return this.codes[index] === 0;
  }

  /** Share of the readings that are not used, 0 to 1. */
  get excludedShare(): number {
    return this.codes.length === 0 ? 0 : this.flaggedCount / this.codes.length;
  }

  /** Returns the stretches in order of time; consecutive readings of one code make one. */
  stretches(): Flag[] {
    const { timeS, channel } = this.curve;
    const flags: Flag[] = [...this.missedScans];
    let from = 0;
    for (let index = 1; this.flaggedCount > 0 && index <= this.codes.length; index++) {
      if (index < this.codes.length && this.codes[index] === this.codes[from]) continue;
      const code = this.codes[from]!;
      if (code !== 0) {
        flags.push({ channelId: channel.id, code: CODES[code - 1]!, fromS: timeS[from]!, toS: timeS[index - 1]! });
      }
      from = index;
    }
    return flags.sort((a, b) => a.fromS - b.fromS);
  }
}
