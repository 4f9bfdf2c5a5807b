import { realpath } from 'node:fs/promises';
import type { Clock } from '../base/clock.ts';
import { Attachment, type AttachmentHost, type AttachRequest } from './attachment.ts';
import { BoardLog, type KnownScans, type ReceivedScan } from './board-log.ts';
import type { Answer } from './command-queue.ts';
import type { BoardChannel, BoardState, GapEvent, LineEvent, RenameEvent, ScanEvent } from './events.ts';
import { IdentityClaims } from './identity-claims.ts';
import type { PortFactory } from './port.ts';
import { listPorts, type PortListing } from './port-listing.ts';
import { watchForSleep } from './sleep-watch.ts';

export type { AttachRequest } from './attachment.ts';
export type { KnownScans } from './board-log.ts';
export type { Answer } from './command-queue.ts';
export type * from './events.ts';
export type { PortListing } from './port-listing.ts';

export interface BridgeOptions {
  clock: Clock;
  ports: PortFactory;
  /** Makes a UUIDv7, for boards without an identity and for attachments. */
  newId(): string;
  /** What an earlier run of the service stored of this board, so that missing scans can be fetched. */
  knownScansOf?(boardKey: string): KnownScans | null;
}

export interface BridgeEvents {
  scan: ScanEvent;
  gap: GapEvent;
  renamed: RenameEvent;
  /** Every line of every board, valid or not; published before its content is. */
  line: LineEvent;
  /** The state of an attached board changed: connected, described, silent, lost …; not published for every line. */
  board: BoardState;
}

/** The boards of this bench: ports, lines and scans. Has no dependency on burns, storage or the network. */
export interface Bridge {
  /**
   * Attaches a port and keeps it connected until it is detached. Attaching a port again with the same settings changes
   * nothing; with other settings it is attached anew.
   * @throws RangeError for plain mode without a format
   */
  attach(request: AttachRequest): BoardState;
  /** Detaches a port. Resolves when it is free again, with false when nothing of this id is attached. */
  detach(id: string): Promise<boolean>;
  boards(): BoardState[];
  /** Channels of an attached board as described; empty before its description is complete, and when it is not attached. */
  channelsOf(boardKey: string): BoardChannel[];
  /** Resolves as soon as the board is live or has a known problem; null when it is not attached. */
  whenIdentified(id: string): Promise<BoardState | null>;
  /** Commands the board to blink its light; null when it is not attached. */
  blink(id: string): Promise<Answer | null>;
  /** Requests a scan period in milliseconds; the answer contains the one in force. Null when it is not attached. */
  setPeriod(id: string, periodMs: number): Promise<Answer | null>;
  /** Requests scans again; those received are published as repeated. Null when it is not attached. */
  resend(id: string, scans: { boot: number; from: number; to: number }): Promise<Answer | null>;
  /** Closes the port and opens it again, as if the cable had been out; false when it is not attached. */
  reopen(id: string): Promise<boolean>;
  listPorts(): Promise<PortListing>;
  /** The board on the device of this name, even if attached under another name; null when it is not attached. */
  attachedAt(path: string): Promise<BoardState | null>;
  /**
   * Releases a port for the duration of `use` and opens it again afterwards, also when `use` fails.
   * @returns the name by which the port is attached, which may be another one of the same device; null when it is not
   */
  lend(path: string, use: () => Promise<void>): Promise<string | null>;
  /** Returns the function that ends the subscription. */
  on<K extends keyof BridgeEvents>(event: K, listener: (event: BridgeEvents[K]) => void): () => void;
  /**
   * Closes all ports, for the next run of the service; resolves when they are free. Missing scans are not published as
   * gaps.
   */
  close(): Promise<void>;
}

/** One device has several names: the one by its serial number is a link to the one by its order. */
function deviceOf(path: string): Promise<string> {
  return realpath(path).catch(() => path);
}

export function createBridge(options: BridgeOptions): Bridge {
  return new PortBridge(options);
}

class PortBridge implements Bridge {
  readonly #options: BridgeOptions;
  readonly #attachments = new Map<string, Attachment>();
  /** The log of each board, and the attachment that carried it last. */
  readonly #logs = new Map<string, { log: BoardLog; carrier: Attachment }>();
  readonly #claims = new IdentityClaims();
  readonly #listeners: { [K in keyof BridgeEvents]: Set<(event: BridgeEvents[K]) => void> } = {
    scan: new Set(),
    gap: new Set(),
    renamed: new Set(),
    line: new Set(),
    board: new Set(),
  };
  #stopSleepWatch: (() => void) | null = null;

  constructor(options: BridgeOptions) {
    this.#options = options;
  }

  attach(request: AttachRequest): BoardState {
    if (request.mode === 'plain' && !request.plain) {
      throw new RangeError('A plain board needs a format: which column is which.');
    }
    const before = [...this.#attachments.values()].find((a) => a.request.path === request.path);
    if (before && JSON.stringify(before.request) === JSON.stringify(request)) return before.state();
    const free = before ? this.detach(before.id) : null;
    const attachment = new Attachment(this.#options.newId(), request, this.#attachmentHost());
    this.#attachments.set(attachment.id, attachment);
    this.#stopSleepWatch ??= watchForSleep(this.#options.clock, () => {
      for (const each of this.#attachments.values()) each.note('hostAsleep');
    });
    if (!free) attachment.start();
    else void free.then(() => this.#attachments.has(attachment.id) && attachment.start());
    return attachment.state();
  }

  async detach(id: string): Promise<boolean> {
    const attachment = this.#attachments.get(id);
    if (!attachment) return false;
    this.#attachments.delete(id);
    const stopped = attachment.stop();
    this.#claims.ended(attachment);
    this.#closeLogsOf(attachment);
    if (this.#attachments.size === 0) {
      this.#stopSleepWatch?.();
      this.#stopSleepWatch = null;
    }
    await stopped;
    return true;
  }

  boards(): BoardState[] {
    return [...this.#attachments.values()].map((attachment) => attachment.state());
  }

  channelsOf(boardKey: string): BoardChannel[] {
    const attachment = [...this.#attachments.values()].find((each) => each.boardKey() === boardKey);
    return attachment?.channels() ?? [];
  }

  whenIdentified(id: string): Promise<BoardState | null> {
    return new Promise((resolve) => {
      const look = (): void => {
        const state = this.#attachments.get(id)?.state() ?? null;
        if (state && state.state !== 'live' && state.problem === null) return;
        off();
        resolve(state);
      };
      const off = this.on('board', (state) => {
        if (state.id === id) look();
      });
      look();
    });
  }

  blink(id: string): Promise<Answer | null> {
    return this.#attachments.get(id)?.command({ kind: 'blink' }) ?? Promise.resolve(null);
  }

  setPeriod(id: string, periodMs: number): Promise<Answer | null> {
    return this.#attachments.get(id)?.command({ kind: 'period', periodMs }) ?? Promise.resolve(null);
  }

  resend(id: string, scans: { boot: number; from: number; to: number }): Promise<Answer | null> {
    return this.#attachments.get(id)?.command({ kind: 'resend', ...scans }) ?? Promise.resolve(null);
  }

  async reopen(id: string): Promise<boolean> {
    const attachment = this.#attachments.get(id);
    await attachment?.pause();
    if (!attachment || this.#attachments.get(id) !== attachment) return false;
    attachment.start();
    return true;
  }

  listPorts(): Promise<PortListing> {
    return listPorts(this.#options.ports);
  }

  async attachedAt(path: string): Promise<BoardState | null> {
    return (await this.#attachedTo(path))[0]?.state() ?? null;
  }

  async #attachedTo(path: string): Promise<Attachment[]> {
    const device = await deviceOf(path);
    const found: Attachment[] = [];
    for (const each of this.#attachments.values()) {
      if ((await deviceOf(each.request.path)) === device) found.push(each);
    }
    return found;
  }

  async lend(path: string, use: () => Promise<void>): Promise<string | null> {
    const lent = await this.#attachedTo(path);
    await Promise.all(lent.map((each) => each.pause()));
    try {
      await use();
      return lent[0]?.request.path ?? null;
    } finally {
      for (const each of lent) if (this.#attachments.get(each.id) === each) each.start();
    }
  }

  on<K extends keyof BridgeEvents>(event: K, listener: (event: BridgeEvents[K]) => void): () => void {
    this.#listeners[event].add(listener);
    return () => void this.#listeners[event].delete(listener);
  }

  async close(): Promise<void> {
    const attachments = [...this.#attachments.values()];
    this.#attachments.clear();
    this.#stopSleepWatch?.();
    this.#stopSleepWatch = null;
    const stopped = attachments.map((attachment) => attachment.stop());
    for (const { log } of this.#logs.values()) log.suspend();
    this.#logs.clear();
    await Promise.all(stopped);
  }

  #emit<K extends keyof BridgeEvents>(event: K, value: BridgeEvents[K]): void {
    for (const listener of this.#listeners[event]) listener(value);
  }

  #attachmentHost(): AttachmentHost {
    const { clock, ports, newId } = this.#options;
    return {
      clock,
      ports,
      newId,
      logOf: (boardKey, attachment) => this.#logOf(boardKey, attachment),
      claim: (boardKey, carrier) => this.#claims.claim(boardKey, carrier),
      renamed: (from, to, scans) => this.#rename(from, to, scans),
      received: (event) => this.#emit('line', event),
      onIdentity: (attachment) => this.#claims.onIdentity(attachment),
      phaseChanged: (attachment, phase) => {
        if (phase === 'silent') this.#claims.silent(attachment);
        else if (phase === 'lost' || phase === 'searching') this.#claims.ended(attachment);
        this.#emit('board', attachment.state());
      },
      changed: (attachment) => this.#emit('board', attachment.state()),
    };
  }

  #logOf(boardKey: string, carrier: Attachment): BoardLog {
    const known = this.#logs.get(boardKey);
    if (known) {
      // A port that is being closed may still deliver buffered bytes after the board has been connected to another
      // port.
      if (this.#attachments.has(carrier.id)) known.carrier = carrier;
      return known.log;
    }
    const output = {
      scan: (event: ScanEvent) => this.#emit('scan', event),
      gap: (event: GapEvent) => this.#emit('gap', event),
    };
    const log = new BoardLog(boardKey, this.#options.clock, output, this.#options.knownScansOf?.(boardKey) ?? null);
    this.#logs.set(boardKey, { log, carrier });
    return log;
  }

  #rename(from: string, to: string, scans: readonly ReceivedScan[]): void {
    this.#logs.get(from)?.log.disconnected();
    this.#logs.get(to)?.log.takeOver(scans);
    this.#emit('renamed', { from, to, boots: [...new Set(scans.map(({ boot }) => boot))] });
  }

  /**
   * Closes the logs of an attachment. A log outlives a lost connection, because the board may return on any attached
   * port; it does not outlive the attachment.
   */
  #closeLogsOf(attachment: Attachment): void {
    for (const [key, { log, carrier }] of this.#logs) {
      if (carrier !== attachment) continue;
      log.close();
      this.#logs.delete(key);
    }
  }
}
