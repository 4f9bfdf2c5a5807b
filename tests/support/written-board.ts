import { sealLine } from '../../firmware-protocol/lines.ts';
import type { Clock } from '../../server/base/clock.ts';
import type { Cable } from './scripted-board.ts';

/** The state of a board when it writes a line. */
export interface BoardMemory {
  identity: string;
  boot: number;
  sequence: number;
  uptimeMs: number;
  periodMs: number;
}

/** How a board is made: according to the specification by default, so that each test can make one thing wrong. */
export interface BoardMaking {
  channels?: readonly string[];
  /** Channels that its hello announces; as many as it describes when left out. */
  announces?: number;
  hello?: (memory: BoardMemory, byTheBook: string) => string;
  scan?: (memory: BoardMemory, byTheBook: string) => string;
  /** Makes a whole line with its ending from its words. */
  line?: (body: string, byTheBook: string) => string;
  /** Answers a command instead; false leaves the answer to the default board. */
  answer?: (words: readonly string[], memory: BoardMemory, send: (body: string) => void) => boolean;
  depth?: number;
  periodMs?: number;
  /** First scan number after each start. */
  firstSequence?: number;
  firstUptimeMs?: number;
  /** Rate of its clock: milliseconds counted per real millisecond. */
  clockRate?: number;
  /** Delay of a scan, ms, by its number. */
  lateMs?: (sequence: number) => number;
  /** Time after each start at which it restarts by itself, ms. */
  restartsAfterMs?: number;
  /** Changes its memory at a start. */
  onStart?: (memory: BoardMemory) => void;
  /** Pause after each channel line, ms, during which it scans. */
  channelEveryMs?: number;
}

export const CHANNELS = ['Pot_low', 'Flue'].map(
  (label, index) =>
    `channel index=${index + 1} quantity=temperature unit=Cel scale=0.25 probe=thermocouple-K resolution=0.25 form=value label=${label}`,
);

/**
 * Starts a board written from the specification for tests of the host's findings about it. It runs on the test's clock.
 */
export function startWrittenBoard(cable: Cable, clock: Clock, making: BoardMaking = {}) {
  const channels = making.channels ?? CHANNELS;
  const memory: BoardMemory = {
    identity: 'none',
    boot: 7,
    sequence: making.firstSequence ?? 0,
    uptimeMs: 0,
    periodMs: making.periodMs ?? 1000,
  };
  const depth = making.depth ?? 64;
  const commands: string[] = [];
  let held: { sequence: number; body: string }[] = [];
  let startedUs = clock.monotonicUs();
  let cancelScan = () => {};
  let cancelRestart = () => {};
  let unfinished = '';

  function send(body: string): void {
    const byTheBook = `${sealLine(body)}\n`;
    cable.write(making.line?.(body, byTheBook) ?? byTheBook);
  }

  function introduce(after = () => {}): void {
    const byTheBook =
      `hello protocol=1 id=${memory.identity} boot=${memory.boot} name=Written_board firmware=1.0 depth=${depth} ` +
      `period=${memory.periodMs} channels=${making.announces ?? channels.length}`;
    send(making.hello?.(memory, byTheBook) ?? byTheBook);
    describeFrom(0, after);
  }

  function describeFrom(index: number, after: () => void): void {
    const channel = channels[index];
    const goOn = () => describeFrom(index + 1, after);
    if (channel === undefined) after();
    else {
      send(channel);
      if (making.channelEveryMs === undefined) goOn();
      else clock.setTimer(making.channelEveryMs, goOn);
    }
  }

  function scan(): void {
    const ranMs = ((clock.monotonicUs() - startedUs) / 1000) * (making.clockRate ?? 1);
    memory.uptimeMs = ((making.firstUptimeMs ?? 0) + Math.round(ranMs)) >>> 0;
    const readings = channels.map((_, index) => 80 + ((memory.sequence + index) % 4)).join(' ');
    const byTheBook = `scan ${memory.boot} ${memory.sequence} ${memory.uptimeMs} ${readings}`;
    const body = making.scan?.(memory, byTheBook) ?? byTheBook;
    held = [...held, { sequence: memory.sequence, body }].slice(-Math.max(1, depth));
    memory.sequence = (memory.sequence + 1) >>> 0;
    send(body);
  }

  function scanLater(atMs: number): void {
    const lateMs = making.lateMs?.(memory.sequence) ?? 0;
    const waitMs = startedUs / 1000 + atMs + lateMs - clock.monotonicUs() / 1000;
    cancelScan = clock.setTimer(Math.max(0, waitMs), () => {
      scan();
      scanLater(atMs + memory.periodMs);
    });
  }

  function start(): void {
    making.onStart?.(memory);
    startedUs = clock.monotonicUs();
    introduce();
    scanLater(memory.periodMs);
    if (making.restartsAfterMs !== undefined) cancelRestart = clock.setTimer(making.restartsAfterMs, restart);
  }

  function restart(): void {
    stop();
    memory.boot += 1;
    memory.sequence = making.firstSequence ?? 0;
    held = [];
    start();
  }

  function stop(): void {
    cancelScan();
    cancelRestart();
  }

  function obey(words: readonly string[]): void {
    const [command, first, from, to] = words;
    if (command === 'describe') {
      introduce(() => send('ok describe'));
    } else if (command === 'identity') {
      memory.identity = first!;
      send(`ok identity id=${first}`);
    } else if (command === 'period') {
      memory.periodMs = Number(first);
      send(`ok period ms=${first}`);
    } else if (command === 'resend') {
      const wanted = held.filter(
        ({ sequence }) => (sequence - Number(from)) >>> 0 <= (Number(to) - Number(from)) >>> 0,
      );
      if (depth === 0 || wanted.length === 0) send('no resend not-held');
      else {
        send(`ok resend oldest=${held[0]!.sequence}`);
        for (const { body } of wanted) send(body.replace(/^\S+/, 'again'));
      }
    } else send(`ok ${command}`);
  }

  cable.onData((bytes) => {
    const lines = (unfinished + Buffer.from(bytes).toString('latin1')).split('\n');
    unfinished = lines.pop()!;
    for (const line of lines) {
      const words = line.replace(/ ~.*$/, '').split(' ');
      commands.push(words.join(' '));
      if (!making.answer?.(words, memory, send)) obey(words);
    }
  });
  start();

  return { commands, memory, restart, stop };
}
