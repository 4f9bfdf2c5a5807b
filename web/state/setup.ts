/** Boards and their probes as they are now, and the latest value of every channel. */
import { computed, signal } from '@preact/signals';
import type { Board, SetupChannel } from '../../shared/contract/boards.ts';
import type { Channel, FaultCode } from '../../shared/contract/burn-record.ts';
import type { HandProbe } from '../../shared/contract/hand-probes.ts';
import { onLive } from './connection.ts';

export interface LatestReading {
  readonly value?: number | undefined;
  readonly fault?: FaultCode | undefined;
  /** Its age when it was received, s of the service; and when that was, on this device's clock. */
  readonly agoS: number;
  readonly receivedMs: number;
}

export const boards = signal<readonly Board[]>([]);
/** Whether the service has sent the setup: before that, an empty list of boards means nothing. */
export const isSetupKnown = signal(false);
/** Probes that the person reads, without a board. */
export const handProbes = signal<readonly HandProbe[]>([]);
/** By channel id. Separate from the boards, because it changes with every scan and they hardly ever do. */
export const latest = signal<ReadonlyMap<string, LatestReading>>(new Map());

export const setupChannels = computed<readonly SetupChannel[]>(() => boards.value.flatMap((board) => board.channels));

/** Period of the slowest board that has one of these probes, ms; 0 where none is known. */
export function slowestPeriodMs(channels: readonly Pick<Channel, 'boardId'>[]): number {
  const present = new Set(channels.map(({ boardId }) => boardId));
  return Math.max(0, ...boards.value.flatMap(({ id, periodMs }) => (present.has(id) ? (periodMs ?? []) : [])));
}

/** Store a board, new or known. */
export function saveBoard(board: Board): void {
  const others = boards.value.filter(({ id }) => id !== board.id);
  boards.value = [...others, board].sort((a, b) => a.path.localeCompare(b.path));
}

export function forgetBoard(boardId: string): void {
  boards.value = boards.value.filter(({ id }) => id !== boardId);
}

/** Subscribe to the stream. Call once, before the connection starts. */
export function followSetup(): void {
  onLive('snapshot', (event) => {
    boards.value = event.boards;
    isSetupKnown.value = true;
    handProbes.value = event.handProbes;
    latest.value = new Map(
      event.boards.flatMap(({ channels }) =>
        channels.flatMap(({ id, latest: { value, fault, agoS = 0 } = {} }) =>
          value === undefined && fault === undefined
            ? []
            : [[id, { value, fault, agoS, receivedMs: Date.now() }] as const],
        ),
      ),
    );
  });
  onLive('board', ({ board }) => saveBoard(board));
  onLive('handProbes', (event) => {
    handProbes.value = event.handProbes;
  });
  onLive('boardGone', ({ boardId }) => forgetBoard(boardId));
  onLive('scan', ({ values, faults }) => {
    const next = new Map(latest.value);
    const now = { agoS: 0, receivedMs: Date.now() };
    for (const [id, value] of Object.entries(values)) next.set(id, { value, ...now });
    for (const [id, fault] of Object.entries(faults)) next.set(id, { fault, ...now });
    latest.value = next;
  });
}
