/** Serial cables inside this process, for systems without pseudo-terminals and for tests without system devices. */
import type { Port, PortEnd, PortFactory } from '../bridge/port.ts';

/** The board's end of a cable: the same interface as that of a pseudo-terminal. */
export interface Cable {
  readonly path: string;
  /** Towards the host; false when the port is not open and the bytes are lost. */
  write(bytes: Uint8Array | string): boolean;
  /** From the host. */
  onData(listener: (bytes: Uint8Array) => void): void;
  /** Unplugs the cable; the open port reports it. */
  unplug(): Promise<void>;
}

export interface InProcessPorts {
  factory: PortFactory;
  /** Plugs in a cable under a name. @throws Error when the name is taken */
  plug(path: string): Cable;
}

interface Connection {
  deliver(bytes: Uint8Array): void;
  end(end: PortEnd): void;
}

interface Plugged {
  toBoard: (bytes: Uint8Array) => void;
  connection: Connection | undefined;
}

export function createInProcessPorts(): InProcessPorts {
  const plugged = new Map<string, Plugged>();

  return {
    plug(path) {
      if (plugged.has(path)) throw new Error(`A simulated lead is plugged in at ${path} already; choose another name.`);
      const socket: Plugged = { toBoard: () => {}, connection: undefined };
      plugged.set(path, socket);
      return {
        path,
        write(bytes) {
          if (!socket.connection) return false;
          socket.connection.deliver(typeof bytes === 'string' ? Buffer.from(bytes, 'latin1') : bytes);
          return true;
        },
        onData(listener) {
          socket.toBoard = listener;
        },
        async unplug() {
          if (plugged.get(path) === socket) plugged.delete(path);
          socket.connection?.end({ kind: 'lost', raw: 'The simulated lead was pulled.' });
        },
      };
    },
    factory: {
      async open(path) {
        const socket = plugged.get(path);
        if (!socket) throw new Error(`Error: No such file or directory, cannot open ${path}`);
        if (socket.connection) throw new Error('Error: Resource temporarily unavailable Cannot lock port');
        return connect(socket);
      },
      list: async () =>
        [...plugged.keys()].map((path) => ({
          path,
          stablePath: null,
          manufacturer: 'Simulated board',
          serialNumber: null,
          vendorId: null,
          productId: null,
        })),
    },
  };
}

/** Bytes are delivered in a later turn of the event loop, as on a real port. */
function connect(socket: Plugged): Port {
  let listener: ((bytes: Uint8Array) => void) | undefined;
  let closed: ((end: PortEnd) => void) | undefined;
  let ended: PortEnd | undefined;
  let waiting: Uint8Array[] = [];

  const flush = () => {
    if (!listener || ended) return;
    const bytes = waiting;
    waiting = [];
    for (const piece of bytes) listener(piece);
  };
  const connection: Connection = {
    deliver(bytes) {
      waiting.push(bytes);
      queueMicrotask(flush);
    },
    end(end) {
      if (ended) return;
      ended = end;
      socket.connection = undefined;
      queueMicrotask(() => closed?.(end));
    },
  };
  socket.connection = connection;

  return {
    async write(bytes) {
      if (ended) throw new Error('Error: Port is not open');
      const copy = Uint8Array.from(bytes);
      queueMicrotask(() => socket.toBoard(copy));
    },
    async close() {
      connection.end({ kind: 'closed' });
    },
    onData(next) {
      listener = next;
      queueMicrotask(flush);
    },
    onClose(next) {
      closed = next;
      if (ended) queueMicrotask(() => next(ended!));
    },
  };
}
