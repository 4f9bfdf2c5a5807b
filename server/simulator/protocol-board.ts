/**
 * A simulated bench board that speaks protocol 1: reads its probes once a period by its own clock, stores the latest
 * scans to send them again, answers commands, and can be made to misbehave.
 *
 * It continues to run when the cable is unplugged (it has its own supply), so that the host can request missed scans.
 */
import { type BoardMessage, encodeLine, type ScanMessage } from '../../firmware-protocol/lines.ts';
import type { Random } from '../../shared/statistics/random.ts';
import type { Clock } from '../base/clock.ts';
import { createBoardWire } from './board-wire.ts';
import type { SimulatedChannel } from './probes.ts';
import type { SimulatedSetup } from './simulated-setup.ts';

export interface BoardSettings {
  identity: string | null;
  name: string;
  firmware: string;
  /** Scans it can send again. */
  repeatDepth: number;
  periodMs: number;
  channels: readonly SimulatedChannel[];
  /** Boot number when it is switched on; 0 when omitted. */
  boot?: number;
  sequence?: number;
  uptimeMs?: number;
}

export type SimulatedBoard = ReturnType<typeof createSimulatedBoard>;

/** Repeated scans are sent a few at a time between live ones, as the speed of a serial line would allow. */
const REPEATS_AT_ONCE = 25;
const REPEAT_EVERY_MS = 100;
const UINT32 = 2 ** 32;

/**
 * @param write sends the text of whole lines, ending included, to the host
 * @param random decides which lines are disturbed
 */
export function createSimulatedBoard(
  settings: BoardSettings,
  setup: Pick<SimulatedSetup, 'elapsedS' | 'advance' | 'scan'>,
  clock: Clock,
  random: Random,
  write: (text: string) => void,
) {
  let { identity, periodMs } = settings;
  let boot = settings.boot ?? 0;
  let sequence = settings.sequence ?? 0;
  let bootedAtMs = 0;
  let switchedOnAtUs = 0;
  let nextScanAtMs = 0;
  let blinks = 0;
  let lost = 0;
  let corrupt = 0;
  let held: ScanMessage[] = [];
  let repeats: ScanMessage[] = [];
  let cancelScan = () => {};
  let cancelRepeats: (() => void) | undefined;

  const runningMs = () => (clock.monotonicUs() - switchedOnAtUs) / 1000;

  function send(message: BoardMessage) {
    const line = encodeLine(message);
    if (random.uniform() < lost) return;
    write(`${random.uniform() < corrupt ? altered(line) : line}\n`);
  }

  function altered(line: string): string {
    const index = Math.floor(random.uniform() * line.length);
    const other = line.charCodeAt(index) === 0x35 ? '6' : '5';
    return line.slice(0, index) + other + line.slice(index + 1);
  }

  function introduce() {
    send({
      kind: 'hello',
      protocol: 1,
      identity,
      boot,
      name: settings.name,
      firmware: settings.firmware,
      repeatDepth: settings.repeatDepth,
      periodMs,
      channels: settings.channels.length,
    });
    settings.channels.forEach((channel, index) => {
      send({
        kind: 'channel',
        index: index + 1,
        quantity: channel.unit === '%' ? 'fraction' : 'temperature',
        unit: channel.unit,
        scale: channel.scale,
        probe: channel.probe,
        resolution: channel.scale,
        form:
          channel.unit === 'uV'
            ? { kind: 'thermocouple-microvolts', coldJunction: coldJunctionIndex() }
            : { kind: 'value' },
        label: channel.label,
      });
    });
  }

  function coldJunctionIndex(): number {
    return settings.channels.findIndex((channel) => channel.site === 'coldJunction') + 1;
  }

  function scanAt(atMs: number) {
    while (setup.elapsedS * 1000 < atMs) setup.advance();
    const scan: ScanMessage = {
      kind: 'scan',
      repeated: false,
      boot,
      sequence,
      uptimeMs: Math.round(atMs - bootedAtMs + (settings.uptimeMs ?? 0)) % UINT32,
      readings: setup.scan(),
    };
    held.push(scan);
    if (held.length > settings.repeatDepth) held.shift();
    sequence = (sequence + 1) % UINT32;
    send(scan);
  }

  function scheduleScan() {
    cancelScan = clock.setTimer(nextScanAtMs - runningMs(), () => {
      // A late timer (a busy machine, a fast clock) must not lose scans: all that are due are read, each with its own
      // time.
      while (nextScanAtMs <= runningMs()) {
        scanAt(nextScanAtMs);
        nextScanAtMs += periodMs;
      }
      scheduleScan();
    });
  }

  function sendRepeats() {
    cancelRepeats = undefined;
    for (const scan of repeats.splice(0, REPEATS_AT_ONCE)) send({ ...scan, repeated: true });
    if (repeats.length > 0) cancelRepeats = clock.setTimer(REPEAT_EVERY_MS, sendRepeats);
  }

  const wire = createBoardWire(
    {
      boot: () => boot,
      introduce,
      setIdentity(given) {
        identity = given;
        return true;
      },
      setPeriod(ms) {
        periodMs = ms;
        cancelScan();
        nextScanAtMs = runningMs() + periodMs;
        scheduleScan();
        return periodMs;
      },
      blink() {
        blinks += 1;
      },
      held: () => held,
      repeat(scans) {
        repeats.push(...scans);
        cancelRepeats ??= clock.setTimer(REPEAT_EVERY_MS, sendRepeats);
      },
    },
    send,
  );

  return {
    /** Starts scanning and sends hello. */
    switchOn(): void {
      switchedOnAtUs = clock.monotonicUs();
      nextScanAtMs = periodMs;
      introduce();
      scheduleScan();
    },
    switchOff(): void {
      cancelScan();
      cancelRepeats?.();
      cancelRepeats = undefined;
    },
    /** Receives bytes from the host, in chunks of any size. */
    receive: wire.receive,
    /**
     * Restarts: next boot number, clock and sequence at 0, the repeat buffer empty, a new hello. The identity stays.
     */
    reset(): void {
      boot = (boot + 1) % UINT32;
      sequence = 0;
      bootedAtMs = runningMs() + (settings.uptimeMs ?? 0);
      wire.forget();
      repeats = [];
      held = [];
      introduce();
    },
    /** Share of lines that are lost or altered in transmission, 0 to 1. */
    disturb(shares: { lost?: number; corrupt?: number }): void {
      lost = shares.lost ?? lost;
      corrupt = shares.corrupt ?? corrupt;
    },
    get identity(): string | null {
      return identity;
    },
    get blinks(): number {
      return blinks;
    },
  };
}
