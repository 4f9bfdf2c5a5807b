import {
  type ChannelReading,
  encodeLine,
  type HostCommand,
  type Message,
  type ScanMessage,
} from '../../firmware-protocol/lines.ts';
import { createBoardWire } from '../../server/simulator/board-wire.ts';

/** Either end of a cable: a fake device or a pseudo-terminal. */
export interface Cable {
  write(bytes: Uint8Array | string): boolean;
  onData(listener: (bytes: Uint8Array) => void): void;
}

export interface ScriptedBoardOptions {
  identity?: string | null;
  boot?: number;
  firstSequence?: number;
  firstUptimeMs?: number;
  periodMs?: number;
  repeatDepth?: number;
  channels?: number;
  lineEnding?: '\n' | '\r\n';
  /** Does not receive from the host: the other wire of the cable is broken. */
  deaf?: boolean;
  /** The uptime that it sends for a moment of its real uptime; the same in milliseconds when left out. */
  uptimeAs?: (uptimeMs: number) => number;
  /** Cannot store an identity. */
  forgetful?: boolean;
}

/**
 * A board that scans on the command of a test. Written from the specification for tests of the host; it has no timing
 * and no measurement of its own.
 */
export class ScriptedBoard {
  identity: string | null;
  boot: number;
  deaf: boolean;
  forgetful: boolean;
  /** Received commands, oldest first. */
  readonly commands: HostCommand[] = [];
  /** Number of further commands that it answers with `no COMMAND busy`. */
  busy = 0;
  /** Number of further repeated scans that are damaged on the wire. */
  damagedRepeats = 0;
  readonly #uptimeAs: (uptimeMs: number) => number;
  readonly #lineEnding: string;
  readonly #repeatDepth: number;
  readonly #channels: number;
  #periodMs: number;
  #sequence: number;
  #uptimeMs: number;
  #held: ScanMessage[] = [];
  #lead: Cable | null = null;
  readonly #wire = createBoardWire(
    {
      boot: () => this.boot,
      introduce: () => this.introduce(),
      setIdentity: (identity) => {
        if (!this.forgetful) this.identity = identity;
        return !this.forgetful;
      },
      setPeriod: (periodMs) => {
        this.#periodMs = periodMs;
        return periodMs;
      },
      blink: () => {},
      held: () => this.held,
      repeat: (scans) => this.#repeat(scans),
      accepts: (command) => {
        this.commands.push(command);
        if (this.busy === 0 || command.kind !== 'resend') return true;
        this.busy--;
        return false;
      },
    },
    (message) => this.send(message),
  );

  constructor(options: ScriptedBoardOptions = {}) {
    this.identity = options.identity ?? null;
    this.boot = options.boot ?? 1;
    this.deaf = options.deaf ?? false;
    this.forgetful = options.forgetful ?? false;
    this.#uptimeAs = options.uptimeAs ?? ((uptimeMs) => uptimeMs);
    this.#lineEnding = options.lineEnding ?? '\n';
    this.#repeatDepth = options.repeatDepth ?? 100;
    this.#channels = options.channels ?? 2;
    this.#periodMs = options.periodMs ?? 1000;
    this.#sequence = options.firstSequence ?? 0;
    this.#uptimeMs = options.firstUptimeMs ?? 1180;
  }

  /** Connects the board to a cable, instead of the one before. */
  connect(cable: Cable): this {
    this.#lead = cable;
    cable.onData((bytes) => {
      if (this.#lead === cable && !this.deaf) this.#wire.receive(bytes);
    });
    return this;
  }

  get periodMs(): number {
    return this.#periodMs;
  }

  /** Scans that it can send again. */
  get held(): readonly ScanMessage[] {
    return this.#repeatDepth === 0 ? [] : this.#held;
  }

  /** Sends hello and its channels, as at a start. */
  introduce(): void {
    this.send({
      kind: 'hello',
      protocol: 1,
      identity: this.identity,
      boot: this.boot,
      name: 'Test_board',
      firmware: '1.0',
      repeatDepth: this.#repeatDepth,
      periodMs: this.#periodMs,
      channels: this.#channels,
    });
    for (let index = 1; index <= this.#channels; index++) {
      this.send({
        kind: 'channel',
        index,
        quantity: 'temperature',
        unit: 'Cel',
        scale: 0.25,
        probe: 'thermocouple-K',
        resolution: 0.25,
        form: { kind: 'value' },
        label: `Probe_${index}`,
      });
    }
  }

  /** Reads the channels and sends the scan; with `lost`, the scan has a number but never arrives. */
  scan(readings: ChannelReading[] = this.#readings(), fate: 'sent' | 'lost' = 'sent'): ScanMessage {
    const scan: ScanMessage = {
      kind: 'scan',
      repeated: false,
      boot: this.boot,
      sequence: this.#sequence,
      uptimeMs: this.#uptimeAs(this.#uptimeMs) >>> 0,
      readings,
    };
    this.#held = [...this.#held, scan].slice(-this.#repeatDepth || this.#held.length + 1);
    this.#sequence = (this.#sequence + 1) >>> 0;
    this.#uptimeMs = (this.#uptimeMs + this.#periodMs) >>> 0;
    if (fate === 'sent') this.send(scan);
    return scan;
  }

  /** Restarts. A faulty board does not change its boot number. */
  reset(boot: number = this.boot + 1, firstSequence = 0): void {
    this.boot = boot;
    this.#sequence = firstSequence;
    this.#uptimeMs = 1180;
    this.#held = [];
    this.introduce();
  }

  /** Advances the board's own clock without a scan. */
  rest(ms: number): void {
    this.#uptimeMs = (this.#uptimeMs + ms) >>> 0;
  }

  send(message: Message): void {
    this.sendRaw(encodeLine(message) + this.#lineEnding);
  }

  sendRaw(text: Uint8Array | string): void {
    this.#lead?.write(text);
  }

  #readings(): ChannelReading[] {
    return Array.from({ length: this.#channels }, (_, i) => 80 + (this.#sequence % 1000) * (i + 1));
  }

  #repeat(scans: readonly ScanMessage[]): void {
    for (const scan of scans) {
      if (this.damagedRepeats > 0) {
        this.damagedRepeats--;
        this.sendRaw(`${encodeLine({ ...scan, repeated: true }).replace(' ', '_')}\n`);
      } else {
        this.send({ ...scan, repeated: true });
      }
    }
  }
}
