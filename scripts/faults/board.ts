/**
 * The board of a history, in a process of its own: makes scans by its own clock whatever happens to the cable, the host
 * or its output, and writes each into its log before it is sent. That log is the truth with which a history is
 * compared.
 *
 * Written from firmware-protocol/README.md, and sharing no code for stored scans with the simulator or the service.
 */
import { appendFileSync, rmSync, symlinkSync } from 'node:fs';
import {
  type ChannelReading,
  decodeLine,
  encodeLine,
  type HostCommand,
  type Message,
} from '../../firmware-protocol/lines.ts';
import { openPseudoTerminal, type PseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import { type Fate, type LogEntry, type MadeScan, nowMs } from './log.ts';

export interface BoardSettings {
  log: string;
  seed: string;
  periodMs: number;
  /** Number of scans that it can send again. */
  depth: number;
  /** Repeated scans that it sends per second. */
  repeatsPerS: number;
  timeScale: number;
  identity: string | null;
  boot: number;
  sequence: number;
  uptime: Uptime;
}

/** The unit of its uptime: milliseconds, as specified, or what faulty firmware sends instead. */
export type Uptime = 'milliseconds' | 'seconds' | 'microseconds' | 'nothing';

/** Orders of the history to the board. Durations are in milliseconds of the board's time. */
export type BoardOrder =
  | { do: 'plug'; path: string }
  | { do: 'unplug' }
  /** `quiet` measures and sends nothing; `hung` does not even measure. */
  | { do: 'silence'; how: 'quiet' | 'hung' | 'over' }
  | { do: 'reset'; boot: 'next' | 'same' | 'random'; memory: 'kept' | 'lost' }
  /** Share of the lines, in either direction, that are damaged. */
  | { do: 'disturb'; share: number }
  | { do: 'flood'; what: 'noise' | 'longLine'; bytes: number }
  /** Whether the port is open on the other side: a real cable buffers nothing. */
  | { do: 'listened'; to: boolean };

/** `done` confirms an order; `repeating` reports that the host has requested scans again and receives them. */
export type BoardWord = { done: BoardOrder['do'] } | { repeating: number } | { failed: string };

const STARTING_MS = 1500;
const PUMP_MS = 50;
const FLOOD_PIECE_BYTES = 2048;
const UINT32 = 2 ** 32;
const CHANNELS = [
  { label: 'Count', scale: 0.001 },
  { label: 'Life', scale: 0.25 },
  { label: 'Pot_low', scale: 0.0625 },
] as const;

const settings = JSON.parse(process.argv[2]!) as BoardSettings;
const random = createRandom(settings.seed);
const report = (word: BoardWord) => process.send?.(word);

let { identity, periodMs, boot, sequence } = settings;
let run = 0;
let made = 0;
let memory: MadeScan[] = [];
let startedMs = nowMs();
let nextMs = startedMs + STARTING_MS / settings.timeScale;
let waterCounts = 240;
let terminal: PseudoTerminal | undefined;
let plugPath: string | undefined;
let silence: 'quiet' | 'hung' | 'over' = 'over';
let listened = true;
let disturbed = 0;
let unread = '';
let repeats: MadeScan[] = [];
let owed = 0;

const log = (entry: LogEntry) => appendFileSync(settings.log, `${JSON.stringify(entry)}\n`);
const oldestHeld = () => memory[0]?.number ?? made;

function print(message: Message): Fate {
  if (silence !== 'over') return 'quiet';
  if (!terminal) return 'unplugged';
  if (!listened) return 'unheard';
  const line = `${encodeLine(message)}\n`;
  const harmed = random.uniform() < disturbed;
  if (!terminal.write(harmed ? harm(line) : line)) return 'dropped';
  return harmed ? 'damaged' : 'sent';
}

/** One byte altered, the end cut off so that the next line is joined to it, or the whole line left out. */
function harm(line: string): string {
  const index = Math.floor(random.uniform() * line.length);
  const way = random.uniform();
  if (way < 0.2) return '';
  if (way < 0.5) return line.slice(0, index);
  return (
    line.slice(0, index) +
    String.fromCharCode(line.charCodeAt(index) ^ (1 + (random.word() % 127))) +
    line.slice(index + 1)
  );
}

function describe(): void {
  print({
    kind: 'hello',
    protocol: 1,
    identity,
    boot,
    name: 'Fault_board',
    firmware: '1.0',
    repeatDepth: settings.depth,
    periodMs,
    channels: CHANNELS.length,
  });
  CHANNELS.forEach(({ label, scale }, index) => {
    print({
      kind: 'channel',
      index: index + 1,
      quantity: 'temperature',
      unit: 'Cel',
      scale,
      probe: 'digital',
      resolution: scale,
      form: { kind: 'value' },
      label,
    });
  });
}

/**
 * The first two channels identify the scan, so that a stored one can be distinguished from every other; the third is a
 * pot that warms.
 */
function measure(): ChannelReading[] {
  waterCounts = Math.min(waterCounts + random.rectangular(2) + 0.4, 1500);
  return [made % 100_000, run, random.uniform() < 0.02 ? 'open' : Math.round(waterCounts)];
}

function uptimeOf(ms: number): number {
  const counted = { milliseconds: ms, seconds: ms / 1000, microseconds: ms * 1000, nothing: 1000 }[settings.uptime];
  return Math.round(counted) % UINT32;
}

function scan(atMs: number): void {
  const uptimeMs = uptimeOf((atMs - startedMs) * settings.timeScale);
  const entry: MadeScan = {
    kind: 'scan',
    number: made,
    run: run,
    boot,
    sequence,
    uptimeMs,
    atMs,
    heldFrom: 0,
    fate: 'dropped',
    readings: measure(),
  };
  memory.push(entry);
  if (memory.length > settings.depth) memory.shift();
  made++;
  sequence = (sequence + 1) % UINT32;
  entry.heldFrom = oldestHeld();
  entry.fate = print({
    kind: 'scan',
    repeated: false,
    boot,
    sequence: entry.sequence,
    uptimeMs,
    readings: entry.readings,
  });
  log(entry);
}

function scheduleScans(): void {
  // A hung board skips scans; a late timer of this machine must not.
  while (nextMs <= nowMs()) {
    if (silence !== 'hung') scan(nextMs);
    nextMs += periodMs / settings.timeScale;
  }
  setTimeout(scheduleScans, Math.max(0, nextMs - nowMs()));
}

function pump(): void {
  owed = Math.min(owed + (settings.repeatsPerS * PUMP_MS) / 1000, settings.repeatsPerS);
  while (owed >= 1 && repeats.length > 0) {
    owed--;
    const next = repeats.shift()!;
    // Overwritten since it was requested.
    if (next.number < oldestHeld()) continue;
    const { boot, sequence, uptimeMs, readings } = next;
    print({ kind: 'scan', repeated: true, boot, sequence, uptimeMs, readings });
  }
}

function resend(command: Extract<HostCommand, { kind: 'resend' }>): void {
  const held = memory.filter((each) => each.boot === command.boot);
  const span = (command.to - command.from) >>> 0;
  const wanted = held.filter((each) => (each.sequence - command.from) >>> 0 <= span);
  if (held.length === 0) {
    print({ kind: 'refused', command: 'resend', reason: command.boot === boot ? 'not-held' : 'other-boot' });
    return;
  }
  const oldest = held[0]!.sequence;
  if (wanted.length === 0) {
    print({ kind: 'refused', command: 'resend', reason: 'not-held', oldest });
    return;
  }
  if (print({ kind: 'ok', command: 'resend', oldest }) !== 'sent') return;
  repeats.push(...wanted);
  report({ repeating: wanted.length });
}

function obey(command: HostCommand): void {
  switch (command.kind) {
    case 'describe':
      describe();
      print({ kind: 'ok', command: 'describe' });
      return;
    case 'identity':
      ({ identity } = command);
      print({ kind: 'ok', command: 'identity', identity });
      return;
    case 'period':
      ({ periodMs } = command);
      print({ kind: 'ok', command: 'period', periodMs });
      return;
    case 'blink':
      print({ kind: 'ok', command: 'blink' });
      return;
    case 'resend':
      resend(command);
  }
}

function receive(bytes: Uint8Array): void {
  const lines = (unread + Buffer.from(bytes).toString('latin1')).split('\n');
  unread = lines.pop()!;
  if (silence !== 'over') return;
  for (const line of lines) {
    const command = decodeLine(random.uniform() < disturbed ? harm(line) : line);
    if (command.kind === 'bad') print({ kind: 'refused', command: '?', reason: 'bad-checksum' });
    else obey(command as HostCommand);
  }
}

async function plug(path: string): Promise<void> {
  const opened = await openPseudoTerminal();
  if (!opened.available) throw new Error(opened.reason);
  unread = '';
  terminal = opened;
  plugPath = path;
  opened.onData((bytes) => {
    if (terminal === opened) receive(bytes);
  });
  rmSync(path, { force: true });
  symlinkSync(opened.path, path);
}

async function unplug(): Promise<void> {
  const pulled = terminal;
  terminal = undefined;
  repeats = [];
  if (plugPath) rmSync(plugPath, { force: true });
  await pulled?.unplug();
}

function reset(order: Extract<BoardOrder, { do: 'reset' }>): void {
  run++;
  boot = order.boot === 'same' ? boot : order.boot === 'next' ? (boot + 1) % UINT32 : random.word();
  sequence = 0;
  repeats = [];
  unread = '';
  if (order.memory === 'lost') memory = [];
  startedMs = nowMs();
  nextMs = startedMs + STARTING_MS / settings.timeScale;
  log({ kind: 'started', run: run, atMs: startedMs, heldFrom: oldestHeld() });
  describe();
}

async function flood(what: 'noise' | 'longLine', bytes: number): Promise<void> {
  for (let sent = 0; sent < bytes; sent += FLOOD_PIECE_BYTES) {
    const piece =
      what === 'noise'
        ? Buffer.from(Array.from({ length: FLOOD_PIECE_BYTES }, () => random.word() % 256))
        : 'x'.repeat(FLOOD_PIECE_BYTES);
    if (listened) terminal?.write(piece);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

async function follow(order: BoardOrder): Promise<void> {
  if (order.do === 'plug') await plug(order.path);
  else if (order.do === 'unplug') await unplug();
  else if (order.do === 'silence') silence = order.how;
  else if (order.do === 'reset') reset(order);
  else if (order.do === 'disturb') disturbed = order.share;
  else if (order.do === 'flood') await flood(order.what, order.bytes);
  else listened = order.to;
}

process.on('message', (order: BoardOrder) => {
  follow(order).then(
    () => report({ done: order.do }),
    (error) => report({ failed: String(error) }),
  );
});
process.on('disconnect', () => void unplug().then(() => process.exit(0)));
log({ kind: 'started', run: run, atMs: startedMs, heldFrom: 0 });
setInterval(pump, PUMP_MS);
scheduleScans();
