import type { ListedPort, Port, PortEnd, PortFactory } from '../../server/bridge/port.ts';

/** The device at the far end of a fake port. */
export interface FakeDevice {
  readonly path: string;
  /** Sends bytes; they are lost, as on a real cable, while the port is not open. */
  write(bytes: Uint8Array | string): boolean;
  onData(listener: (bytes: Uint8Array) => void): void;
  /** Unplugs the cable. */
  unplug(): void;
}

/**
 * A port factory that a test controls: the paths that exist, those that fail to open and with what message, those that
 * never open.
 */
export interface FakePorts {
  factory: PortFactory;
  /** A device appears at a path. */
  plug(path: string): FakeDevice;
  /** Makes opening this path fail with this message; null makes it succeed again. */
  refuse(path: string, raw: string | null): void;
  /** Makes opening this path never finish. */
  hang(path: string, hanging: boolean): void;
  /** Makes listing ports fail with this message, or return these ports. */
  listing(outcome: string | ListedPort[]): void;
  /** Number of attempts to open a path. */
  tries(path: string): number;
  /** Speeds at which a path was opened, oldest first. */
  speeds(path: string): number[];
}

interface Line {
  device: { listener: ((bytes: Uint8Array) => void) | null };
  host: FakePort | null;
}

export function createFakePorts(): FakePorts {
  const lines = new Map<string, Line>();
  const refusals = new Map<string, string>();
  const hanging = new Set<string>();
  const opened = new Map<string, number[]>();
  let listed: string | ListedPort[] = [];

  const open = async (path: string, baudRate: number): Promise<Port> => {
    opened.set(path, [...(opened.get(path) ?? []), baudRate]);
    if (hanging.has(path)) return new Promise<Port>(() => {});
    const raw = refusals.get(path);
    if (raw !== undefined) throw new Error(raw);
    const line = lines.get(path);
    if (!line) throw new Error(`Error: No such file or directory, cannot open ${path}`);
    if (line.host) throw new Error('Error Resource temporarily unavailable Cannot lock port');
    line.host = new FakePort(line);
    return line.host;
  };

  return {
    factory: {
      open,
      list: () => (typeof listed === 'string' ? Promise.reject(new Error(listed)) : Promise.resolve(listed)),
    },
    plug(path) {
      const line: Line = { device: { listener: null }, host: null };
      lines.set(path, line);
      return {
        path,
        write: (bytes) => line.host?.receive(bytes) ?? false,
        onData(listener) {
          line.device.listener = listener;
        },
        unplug() {
          if (lines.get(path) === line) lines.delete(path);
          line.host?.end({ kind: 'lost', raw: 'the port is disconnected' });
        },
      };
    },
    refuse: (path, raw) => void (raw === null ? refusals.delete(path) : refusals.set(path, raw)),
    hang: (path, on) => void (on ? hanging.add(path) : hanging.delete(path)),
    listing(outcome) {
      listed = outcome;
    },
    tries: (path) => opened.get(path)?.length ?? 0,
    speeds: (path) => opened.get(path) ?? [],
  };
}

class FakePort implements Port {
  readonly #line: Line;
  #data: ((bytes: Uint8Array) => void) | null = null;
  #early: Uint8Array[] = [];
  #close: ((reason: PortEnd) => void) | null = null;
  #end: PortEnd | null = null;

  constructor(line: Line) {
    this.#line = line;
  }

  receive(bytes: Uint8Array | string): boolean {
    const chunk = typeof bytes === 'string' ? Buffer.from(bytes, 'utf8') : bytes;
    if (this.#data) this.#data(chunk);
    else this.#early.push(chunk);
    return true;
  }

  end(reason: PortEnd): void {
    if (this.#end) return;
    this.#end = reason;
    this.#line.host = null;
    this.#close?.(reason);
  }

  async write(bytes: Uint8Array): Promise<void> {
    if (this.#end) throw new Error('The port is closed.');
    this.#line.device.listener?.(bytes);
  }

  async close(): Promise<void> {
    this.end({ kind: 'closed' });
  }

  onData(listener: (bytes: Uint8Array) => void): void {
    this.#data = listener;
    for (const chunk of this.#early.splice(0)) listener(chunk);
  }

  onClose(listener: (reason: PortEnd) => void): void {
    this.#close = listener;
    if (this.#end) listener(this.#end);
  }
}
