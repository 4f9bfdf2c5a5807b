/** Four boards that scan eight channels ten times a second; what a scan holds and when it was made follows from its number alone. */
import type { Clock } from '../../../server/base/clock.ts';
import { createSimulatedBoard } from '../../../server/simulator/protocol-board.ts';
import { createRandom } from '../../../shared/statistics/random.ts';

export const BOARDS = [1, 2, 3, 4] as const;
export const CHANNELS = 8;
export const PERIOD_MS = 100;
/** Scans a board can send again: half a minute, so that a longer silence leaves a gap. */
export const DEPTH = 300;
export const BOOT = 7;
/** Between the scans of one board and of the next. */
const OFFSET_MS = 25;

export const boardIdOf = (board: number) => `01995f3a-7c2e-7d41-9b1e-3f60a2c4d58${board}`;

/** When a scan was made, ms since the day began. */
export const madeMs = (board: number, sequence: number) => board * OFFSET_MS + (sequence + 1) * PERIOD_MS;

/** An invented curve of some hours with two or three counts of noise. */
export function readingOf(board: number, channel: number, sequence: number): number {
  const hours = (sequence * PERIOD_MS) / 3.6e6;
  const place = board * CHANNELS + channel;
  // A multiplicative hash: noise that can be made again for one scan without those before it.
  const mixed = Math.imul(sequence + 1, 0x9e3779b1) ^ Math.imul(place + 1, 0x85ebca6b);
  const noise = Math.imul(mixed ^ (mixed >>> 15), 0x2c1b3c6d) >>> 16;
  return Math.round(900 + 20 * place + 600 * Math.sin(hours + place) + (noise & 3) + ((noise >>> 2) & 3));
}

/** Switched on, as if it had run since the day began. The first channel of the first board is the water. */
export function startBoard(board: number, clock: Clock, fromMs: number, write: (text: string) => void) {
  let sequence = Math.ceil(fromMs / PERIOD_MS);
  const terminals = {
    elapsedS: Number.POSITIVE_INFINITY,
    advance() {},
    scan() {
      const readings = Array.from({ length: CHANNELS }, (_, channel) => readingOf(board, channel, sequence));
      sequence++;
      return readings;
    },
  };
  const channels = Array.from({ length: CHANNELS }, (_, channel) => ({
    site: 'body' as const,
    label: board === 1 && channel === 0 ? 'Water_low' : `Probe_${channel + 1}`,
    role: 'body' as const,
    unit: 'Cel' as const,
    scale: 0.0625,
    probe: 'digital' as const,
    timeConstantS: 1,
    noise: 0,
  }));
  const settings = {
    identity: boardIdOf(board),
    name: `Board_${board}`,
    firmware: '1',
    repeatDepth: DEPTH,
    periodMs: PERIOD_MS,
    channels,
    boot: BOOT,
    sequence,
    uptimeMs: sequence * PERIOD_MS,
  };
  const simulated = createSimulatedBoard(settings, terminals, clock, createRandom('undisturbed'), write);
  clock.setTimer(board * OFFSET_MS, () => simulated.switchOn());
  return simulated;
}
