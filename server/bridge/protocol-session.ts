import {
  type BadLine,
  decodeLine,
  type HelloMessage,
  type HostCommand,
  MAX_LINE_BYTES,
  type Message,
} from '../../firmware-protocol/lines.ts';
import type { Clock } from '../base/clock.ts';
import { BoardDescription } from './board-description.ts';
import type { BoardLog, ReceivedScan } from './board-log.ts';
import { type Answer, CommandQueue } from './command-queue.ts';
import type { BoardChannel } from './events.ts';
import type { ReceivedLine } from './line-reader.ts';
import type { RequestLink } from './missing-scan-requests.ts';
import type { BoardProblem, BoardProblemCode } from './problems.ts';
import { RefusedLines } from './refused-lines.ts';
import { receivedScan } from './scan-line.ts';
import { wrapUint32 } from './sequence-numbers.ts';
import type { Session, SessionFacts, SessionHost } from './session.ts';
import { silenceLimitMs } from './silence-limit.ts';

const LEAST_QUIET_MS = 2_000;
const PERIODS_OF_QUIET = 3;
/** Scans that are buffered until the board has identified itself. */
const MOST_UNCLAIMED = 10_000;
/** A missing description is requested again after this, then after twice as long each time; real milliseconds. */
const ASK_AGAIN_FIRST_MS = 500;
const ASK_AGAIN_MOST_MS = 30_000;
/**
 * A board that was given a new identity in place of a copied one is asked to confirm it after this; real milliseconds.
 */
const CONFIRM_AFTER_MS = 30_000;

/** A board that speaks protocol 1: it identifies itself, numbers its scans and can send them again. */
export class ProtocolSession implements Session {
  readonly #clock: Clock;
  readonly #host: SessionHost;
  readonly #fallbackKey: string;
  #description = new BoardDescription();
  #queue: CommandQueue;
  #log: BoardLog | null = null;
  /** The board last carried by this port, used when the board does not identify itself. */
  #lastKey: string | null = null;
  /** Scans received while the board had a key that it had not sent itself; null once it has. */
  #provisional: ReceivedScan[] | null = null;
  /** An identity is being claimed or written; a connection does this once at a time. */
  #settling = false;
  /** The whole description was received during this connection. */
  #isDescribed = false;
  #askAgainMs = ASK_AGAIN_FIRST_MS;
  #askAgainUs = Number.NEGATIVE_INFINITY;
  #confirmAtUs = Number.POSITIVE_INFINITY;
  #identityStored = false;
  /** The start of the board in which an identity was written: a board that loses it at once is not sent another. */
  #identityWrittenAtBoot: number | null = null;
  #problem: BoardProblem | null = null;
  /** Requests for a description without success. */
  #asksInVain = 0;
  readonly #refused = new RefusedLines();
  /** Number of readings in the last scan, where it differs from the one in the hello. */
  #otherCount: number | null = null;
  #unclaimed: ReceivedScan[] = [];

  /** @param fallbackKey known to the host for a board on this port that cannot store an identity */
  constructor(clock: Clock, host: SessionHost, fallbackKey: string) {
    this.#clock = clock;
    this.#host = host;
    this.#fallbackKey = fallbackKey;
    this.#queue = this.#closedQueue();
  }

  opened(): void {
    this.#queue = this.#newQueue();
    this.#settling = false;
    this.#isDescribed = false;
    this.#askAgainMs = ASK_AGAIN_FIRST_MS;
    this.#askAgainUs = Number.NEGATIVE_INFINITY;
    this.#confirmAtUs = Number.POSITIVE_INFINITY;
    this.#asksInVain = 0;
    this.#identityWrittenAtBoot = null;
    this.#problem = null;
  }

  lines(lines: ReceivedLine[], arrivalUs: number): 'scan' | 'answer' | null {
    const scans: ReceivedScan[] = [];
    let received: 'scan' | 'answer' | null = null;
    for (const line of lines) {
      const message = this.#decode(line);
      if (!message) continue;
      this.#host.counts.lines++;
      if (message.kind === 'scan') scans.push(receivedScan(message, arrivalUs));
      else this.#take(message);
      received = message.kind === 'scan' || received === 'scan' ? 'scan' : 'answer';
    }
    if (scans.length > 0) {
      this.#countReadings(scans.at(-1)!);
      this.#keep(scans);
      if (!this.#isDescribed) this.#describeWhenDue();
      else if (this.#clock.monotonicUs() >= this.#confirmAtUs) this.#confirmIdentity();
    }
    return received;
  }

  ended(): void {
    this.#queue.close();
    // A continuation that still waits for an answer finds a different queue and stops.
    this.#queue = this.#closedQueue();
    this.#log?.disconnected();
    this.#provisional = null;
    // The next board on this port may be another one: its scans are buffered until it identifies itself.
    this.#log = null;
    this.#settling = false;
  }

  stop(): void {
    // Scans of a board that never identified itself belong to this port's board.
    if (this.#unclaimed.length > 0) this.#carryProvisionally(this.#lastKey ?? this.#fallbackKey);
    this.#queue.close();
  }

  release(): void {
    this.#log = null;
    this.#lastKey = null;
  }

  describe(): void {
    if (!this.#queue.isAsking('describe')) void this.#describe();
  }

  command(command: HostCommand): Promise<Answer> {
    return this.#queue.send(command).then((answer) => {
      if (answer.kind === 'ok' && answer.periodMs !== undefined) this.#description.setPeriod(answer.periodMs);
      return answer;
    });
  }

  silenceMs(): number {
    return silenceLimitMs('protocol', this.#description.hello?.periodMs ?? 0, this.#clock.scale);
  }

  log(): BoardLog | null {
    return this.#log;
  }

  facts(): SessionFacts {
    const { hello } = this.#description;
    return {
      identityStored: this.#identityStored,
      name: hello?.name.replaceAll('_', ' ') ?? null,
      firmware: hello?.firmware ?? null,
      periodMs: hello?.periodMs ?? null,
      repeatDepth: hello?.repeatDepth ?? 0,
      channels: this.channels(),
      problem: this.#problem ?? this.#problemOfLines(),
    };
  }

  /** Published only when complete, since half of them would be taken for all, and only under the board's own key. */
  channels(): BoardChannel[] {
    return this.#description.complete && !this.#provisional ? this.#description.channels : [];
  }

  /** What is wrong with what the board sends, for as long as it is wrong. */
  #problemOfLines(): BoardProblem | null {
    const { path } = this.#host;
    const { hello, missing, extra } = this.#description;
    const refused = (!this.#isDescribed && this.#refused.ofDescription) || this.#refused.ofScans;
    if (refused) {
      const { word, channel, mistake } = refused;
      const { code, field, found, expected } = mistake;
      const where = { ...(channel !== undefined && { channel }), ...(field !== undefined && { field }) };
      return { code: 'line-refused', params: { path, word, mistake: code, ...where, found, expected } };
    }
    if (!this.#isDescribed && this.#asksInVain > 0) {
      if (!hello || missing.length === 0) return this.#log ? { code: 'no-description', params: { path } } : null;
      return { code: 'channel-missing', params: { path, channel: missing[0]!, channels: hello.channels } };
    }
    if (!this.#isDescribed || !hello) return null;
    if (extra.length > 0) {
      return { code: 'channel-extra', params: { path, channel: extra[0]!, channels: hello.channels } };
    }
    if (this.#otherCount !== null) {
      return { code: 'readings-differ', params: { path, found: this.#otherCount, expected: hello.channels } };
    }
    const mistake = this.#description.mistakes().find(({ code }) => code !== 'label-twice');
    if (!mistake) return null;
    const { code, index, label, found, expected } = mistake;
    const params = { path, channel: index, label: label.replaceAll('_', ' '), found, expected, mistake: code };
    return { code: code.startsWith('unit-') ? 'channel-unit' : 'channel-cold-junction', params };
  }

  #countReadings({ counts }: ReceivedScan): void {
    const channels = this.#description.hello?.channels;
    const other = channels !== undefined && counts.length !== channels ? counts.length : null;
    if (other === this.#otherCount) return;
    this.#otherCount = other;
    this.#host.changed();
  }

  /** Returns the message on a line; null after counting the reason why there is none. */
  #decode(line: ReceivedLine): Message | null {
    const decoded = line.cut ? TOO_LONG : decodeLine(line.text);
    if (decoded.kind !== 'bad') return FROM_HOST.has(decoded.kind) ? null : this.#accepted(decoded);
    if (decoded.reason === 'empty') return null;
    const { counts } = this.#host;
    counts.discardedBytes += line.bytes;
    if (decoded.reason === 'unsupported-protocol') {
      this.#note('newer-protocol');
      this.#host.changed();
    }
    // Text before the first line ending was cut by opening the port in the middle of it, not by a bad cable.
    if (line.joinedMidLine) return null;
    if (decoded.reason === 'bad-checksum') counts.badChecksum++;
    else counts.badLines++;
    if (!line.cut && this.#refused.refuse(line.text)) this.#host.changed();
    return null;
  }

  /** Clears the problem with lines of this kind. */
  #accepted(message: Message): Message {
    if (message.kind === 'hello') this.#refused.helloTaken();
    else if (message.kind === 'channel') this.#refused.channelTaken(message.index);
    else if (message.kind === 'scan' && this.#refused.ofScans) {
      this.#refused.scanTaken();
      this.#host.changed();
    } else if (message.kind === 'scan') this.#refused.scanTaken();
    return message;
  }

  #take(message: Message): void {
    switch (message.kind) {
      case 'hello':
        if (this.#problem?.code === 'newer-protocol') this.#problem = null;
        // A hello repeated after an early "ok describe" is no reason to request the description again.
        if (this.#description.takeHello(message)) this.#isDescribed = false;
        if (this.#isDescribed) {
          void this.#settleIdentity(message);
          break;
        }
        // A starting board sends hello unrequested; a request makes sure that all its channel lines are received.
        this.#describeWhenDue();
        void this.#settleIdentity(message);
        break;
      case 'channel':
        this.#description.takeChannel(message);
        break;
      case 'ok':
      case 'refused':
        this.#queue.take(message);
        break;
    }
    this.#host.changed();
  }

  #describeWhenDue(): void {
    if (this.#clock.monotonicUs() >= this.#askAgainUs) this.describe();
  }

  async #describe(): Promise<void> {
    const queue = this.#queue;
    const answer = await queue.send({ kind: 'describe' });
    if (queue !== this.#queue) return;
    const isWhole = answer.kind === 'ok' && this.#description.whole;
    if (isWhole) this.#askAgainMs = ASK_AGAIN_FIRST_MS;
    this.#askAgainUs = this.#clock.monotonicUs() + this.#askAgainMs * 1000 * this.#clock.scale;
    if (isWhole) return this.#described();
    this.#asksInVain++;
    this.#askAgainMs = Math.min(this.#askAgainMs * 2, ASK_AGAIN_MOST_MS);
    if (this.#unclaimed.length > 0 && !this.#log && !this.#settling) {
      const key = this.#lastKey ?? this.#fallbackKey;
      const claimed = await this.#host.claim(key);
      if (queue !== this.#queue || this.#log) return;
      this.#carryProvisionally(claimed === 'granted' ? key : this.#fallbackKey);
    }
    this.#host.changed();
  }

  #described(): void {
    this.#isDescribed = true;
    this.#asksInVain = 0;
    this.#refused.described();
    this.#host.changed();
  }

  /** Requests the description, so that the board sends its new identity and the problem with the old one is cleared. */
  #confirmIdentity(): void {
    this.#confirmAtUs = Number.POSITIVE_INFINITY;
    this.describe();
  }

  async #settleIdentity(hello: HelloMessage): Promise<void> {
    const known = this.#log !== null && this.#identityStored && this.#log.boardKey === hello.identity;
    const isOfIdentity = this.#problem?.code === 'identity-not-kept' || this.#problem?.code === 'identity-shared';
    if (known && isOfIdentity) this.#problem = null;
    if (this.#settling || known) return;
    if (hello.identity === null && this.#identityWrittenAtBoot === hello.boot) {
      this.#identityStored = false;
      this.#note('identity-not-kept');
      this.#host.changed();
      return;
    }
    const queue = this.#queue;
    this.#settling = true;
    const identity = await this.#identityFor(hello, queue);
    if (queue !== this.#queue) return;
    this.#settling = false;
    this.#carry(identity.key, identity.stored);
    this.#host.changed();
  }

  /** The identity that this board has from now on; one is written to a board that has none, or a copied one. */
  async #identityFor(hello: HelloMessage, queue: CommandQueue): Promise<{ key: string; stored: boolean }> {
    if (hello.identity !== null && (await this.#host.claim(hello.identity)) === 'granted') {
      return { key: hello.identity, stored: true };
    }
    if (hello.identity !== null) this.#note('identity-shared');
    const savedKey = this.#log && (this.#identityStored || this.#provisional) ? this.#log.boardKey : null;
    const identity = savedKey ?? this.#host.newId();
    const answer = await queue.send({ kind: 'identity', identity });
    if (answer.kind === 'ok' || answer.kind === 'refused') this.#identityWrittenAtBoot = hello.boot;
    const stored = answer.kind === 'ok' && answer.identity === identity;
    if (!stored && answer.kind !== 'notConnected' && hello.identity === null) {
      this.#note('identity-not-kept');
    }
    if (stored && hello.identity !== null) {
      this.#confirmAtUs = this.#clock.monotonicUs() + CONFIRM_AFTER_MS * 1000 * this.#clock.scale;
    }
    const key = stored ? identity : (this.#lastKey ?? this.#fallbackKey);
    await this.#host.claim(key);
    return { key, stored };
  }

  /** Until the board identifies itself, its scans are stored under the key of this port. */
  #carryProvisionally(key: string): void {
    this.#provisional ??= [];
    this.#identityStored = false;
    this.#lastKey = key;
    this.#log = this.#host.logOf(key);
    this.#receive(this.#unclaimed.splice(0));
  }

  /** From now on this port carries the board of this key; scans received so far belong to it. */
  #carry(key: string, stored: boolean): void {
    const before = this.#log;
    const provisional = this.#provisional;
    this.#provisional = null;
    this.#identityStored = stored;
    this.#lastKey = key;
    this.#log = this.#host.logOf(key);
    if (before && before.boardKey !== key) {
      if (provisional) this.#host.renamed(before.boardKey, key, provisional);
      else before.disconnected();
    }
    this.#log.connected(this.#recoveryLink());
    this.#receive(this.#unclaimed.splice(0));
  }

  #recoveryLink(): RequestLink | null {
    if ((this.#description.hello?.repeatDepth ?? 0) === 0) return null;
    const queue = this.#queue;
    return {
      depth: this.#description.hello?.repeatDepth ?? 0,
      ask: ({ boot, from, to }) =>
        queue.send({ kind: 'resend', boot: wrapUint32(boot), from: wrapUint32(from), to: wrapUint32(to) }),
      quietMs: () =>
        Math.max(LEAST_QUIET_MS * this.#clock.scale, PERIODS_OF_QUIET * (this.#description.hello?.periodMs ?? 0)),
    };
  }

  #keep(scans: ReceivedScan[]): void {
    if (this.#log) {
      this.#receive(scans);
      return;
    }
    this.#unclaimed.push(...scans);
    if (this.#unclaimed.length > MOST_UNCLAIMED) this.#carryProvisionally(this.#lastKey ?? this.#fallbackKey);
  }

  #receive(scans: ReceivedScan[]): void {
    if (scans.length === 0) return;
    this.#log?.receive(scans);
    this.#provisional?.push(...scans);
    if (this.#provisional && this.#provisional.length > MOST_UNCLAIMED) {
      this.#provisional.splice(0, this.#provisional.length - MOST_UNCLAIMED);
    }
  }

  #note(code: BoardProblemCode): void {
    this.#problem = { code, params: { path: this.#host.path } };
  }

  #newQueue(): CommandQueue {
    return new CommandQueue(this.#clock, (text) => this.#host.write(text));
  }

  #closedQueue(): CommandQueue {
    const queue = this.#newQueue();
    queue.close();
    return queue;
  }
}

const TOO_LONG: BadLine = { kind: 'bad', reason: 'too-long', text: '' };

/** Commands that are received back are an echo of a terminal or of a board that repeats its input. */
const FROM_HOST: ReadonlySet<string> = new Set(['describe', 'identity', 'period', 'resend', 'blink']);

/** The connection cuts lines at this length. */
export const PROTOCOL_LINE_BYTES = MAX_LINE_BYTES;
