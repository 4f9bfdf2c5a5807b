import type { ScanMessage } from '../../firmware-protocol/lines.ts';
import type { Gap } from '../../shared/contract/burn-record.ts';
import { createFakeClock } from './fake-clock.ts';
import { ScriptedBoard, type ScriptedBoardOptions } from './scripted-board.ts';
import { burnId, testId } from './temp-store.ts';
import { type TestService, type TestServiceOptions, testService } from './test-service.ts';

export const recordedBoardId = testId(90);
export const burnUrl = `/api/burns/${burnId}`;

/** A burn recorded from a board that a test controls, with the board's own log. */
export interface RecordedBoard {
  service: TestService;
  board: ScriptedBoard;
  /** Every scan that the board made while the burn ran, whether or not it arrived. */
  made: ScanMessage[];
  /** Advances by this number of periods, with a scan in each. */
  pass(periods: number, fate?: 'sent' | 'lost' | 'damaged'): Promise<void>;
  /** Advances time without a scan. */
  wait(ms: number): Promise<void>;
  unplug(): Promise<void>;
  plug(path?: string): void;
  end(): Promise<void>;
  /** Stops the service and starts another on the same data after this time. */
  restart(downMs: number): Promise<void>;
  /** Numbers of the scans of the burn, in the order of the store. */
  stored(boardId?: string): string[];
  detail(): Promise<{
    gaps: Gap[];
    repairs: (Gap & { missingScans?: number })[];
    completeness?: { stored: number; missing: number };
  }>;
  problem(): Promise<string | undefined>;
}

export async function recordBoard(
  boardOptions: ScriptedBoardOptions = {},
  options: TestServiceOptions & { attach?: object; isRunning?: boolean } = {},
): Promise<RecordedBoard> {
  const { attach, isRunning = true, ...serviceOptions } = options;
  let service = await testService(serviceOptions);
  const board = new ScriptedBoard({ identity: recordedBoardId, repeatDepth: 600, ...boardOptions });
  const { ports, folder } = service;
  let cable: ReturnType<typeof ports.plug> | undefined;
  const made: ScanMessage[] = [];
  let recording = false;

  const bench: RecordedBoard = {
    get service() {
      return service;
    },
    board,
    made,
    async pass(periods, fate = 'sent') {
      for (let i = 0; i < periods; i++) {
        await service.clock.advanceAsync(board.periodMs);
        const scan = board.scan(undefined, fate === 'sent' ? 'sent' : 'lost');
        if (fate === 'damaged') board.sendRaw('scan 1 1 99 1 2 ~DEADBEEF\n');
        if (recording) made.push(scan);
        await service.clock.advanceAsync(0);
      }
    },
    async wait(ms) {
      board.rest(ms);
      await service.clock.advanceAsync(ms);
    },
    async unplug() {
      await cable?.unplug();
      cable = undefined;
    },
    plug(path = 'bench') {
      cable = ports.plug(path);
      board.connect(cable);
    },
    async end() {
      recording = false;
      const { body } = await service.call('GET', burnUrl);
      await service.call('PATCH', burnUrl, { expectedVersion: body.burn.version, status: 'ended' });
    },
    async restart(downMs) {
      const wallMs = service.clock.wallMs();
      const machine = service.clock.sinceBoot();
      await service.close();
      const clock = createFakeClock(wallMs + downMs, machine && { ...machine, us: machine.us + downMs * 1000 });
      service = await testService({ ...serviceOptions, folder, ports, clock });
    },
    stored: (boardId = recordedBoardId) => {
      const { boot, sequence } = service.store.scans.columns(burnId, boardId);
      return Array.from(boot, (number, i) => `${number % 2 ** 32} ${sequence[i]}`);
    },
    detail: async () => (await service.call('GET', burnUrl)).body,
    async problem() {
      return (await service.call('GET', '/api/boards')).body.boards[0]?.problem?.code;
    },
  };

  bench.plug();
  const attached = service.call('POST', '/api/boards', { path: 'bench', ...attach });
  await service.clock.advanceAsync(6_000);
  await attached;
  board.rest(6_000);
  if (isRunning) {
    await service.call('POST', '/api/burns', { id: burnId, status: 'running' });
    recording = true;
  }
  return bench;
}

export const numbersOf = (scans: readonly ScanMessage[]): string[] =>
  scans.map(({ boot, sequence }) => `${boot} ${sequence}`);
