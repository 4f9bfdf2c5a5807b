import type { ScanMessage } from '../../firmware-protocol/messages.ts';

/** The latest scans of one boot, as many as fit. */
export interface RepeatBuffer {
  keep(scan: ScanMessage): void;
  /** Sequence number of the oldest scan held. */
  oldest(): number | undefined;
  /** Scans `from` to `to`, both included, as far as they are held; `to` may be the smaller number across the wrap at 2³². */
  between(from: number, to: number): ScanMessage[];
}

export function createRepeatBuffer(depth: number): RepeatBuffer {
  const held: ScanMessage[] = [];
  return {
    keep(scan) {
      held.push(scan);
      if (held.length > depth) held.shift();
    },
    oldest: () => held[0]?.sequence,
    between(from, to) {
      const span = (to - from) >>> 0;
      return held.filter((scan) => (scan.sequence - from) >>> 0 <= span);
    },
  };
}
