/**
 * What the bridge uses of a serial port. A port lives for one connection: it is opened once, ends once, and is never
 * re-opened (an old port object may still hold bytes of the old connection).
 */
export interface Port {
  /** Sends bytes; rejects when the port cannot send them. */
  write(bytes: Uint8Array): Promise<void>;
  /** Ends the connection; resolves also when it has ended already. Never rejects. */
  close(): Promise<void>;
  /** Bytes as they arrive, from the first one on: nothing is delivered, and nothing lost, before a listener is set. */
  onData(listener: (bytes: Uint8Array) => void): void;
  /**
   * Called exactly once when the connection ends, whichever side ended it, with the reason in the system's own words.
   */
  onClose(listener: (reason: PortEnd) => void): void;
  /** Asserts the device's reset line for a moment; undefined where there is no such line. Rejects when that fails. */
  reset?(): Promise<void>;
  /** Whether the device is still present; undefined where only `onClose` can report it. Never rejects. */
  isPresent?(): Promise<boolean>;
}

export type PortEnd =
  /** `close` was called. */
  | { kind: 'closed' }
  /** The device went away or the system reported an error. */
  | { kind: 'lost'; raw: string };

/** A port the system knows by name. Pseudo-terminals and unusual names are not listed: those are attached by path. */
export interface ListedPort {
  path: string;
  /** Path that stays the same when the device is plugged in elsewhere, where the system provides one. */
  stablePath: string | null;
  manufacturer: string | null;
  serialNumber: string | null;
  vendorId: string | null;
  productId: string | null;
}

export interface PortFactory {
  /** Opens a port. Rejects with an `Error` whose message is the system's own text. */
  open(path: string, baudRate: number): Promise<Port>;
  /** Ports known to the system; rejects where the system cannot list them. */
  list(): Promise<ListedPort[]>;
}
