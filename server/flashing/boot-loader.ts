/**
 * The programming side of the serial boot loader protocol published as application note AVR061, as far as a program
 * needs it: sync, signature, writing and reading pages. Command numbers as in the note (from memory).
 */

import type { Clock } from '../base/clock.ts';
import type { Port } from '../bridge/port.ts';

const OK = 0x10;
const IN_SYNC = 0x14;
const END = 0x20;
const GET_SYNC = 0x30;
const ENTER = 0x50;
const LEAVE = 0x51;
const LOAD_ADDRESS = 0x55;
const PROGRAM_PAGE = 0x64;
const READ_PAGE = 0x74;
const READ_SIGNATURE = 0x75;
const FLASH = 'F'.charCodeAt(0);

/** Real milliseconds: a page takes some 10 to send and 10 to write, and a busy machine receives the answer later. */
const ANSWER_MS = 3000;
/** A boot loader that has just been reset misses the first requests, and waits about a second for the next. */
const SYNC_MS = 120;
const SYNC_TRIES = 12;
const LATE_MS = 300;

/** The board sent no answer, or one that is not part of the protocol. */
export class NoBootLoader extends Error {}

export interface BootLoader {
  /** @throws NoBootLoader without an answer for a second and a half */
  synchronise(): Promise<void>;
  /** Three bytes that identify the chip. */
  signature(): Promise<Uint8Array>;
  enter(): Promise<void>;
  writePage(address: number, bytes: Uint8Array): Promise<void>;
  readPage(address: number, length: number): Promise<Uint8Array>;
  /** Starts the program. */
  leave(): Promise<void>;
}

/** @param port just opened, without another listener */
export function bootLoaderAt(port: Port, clock: Clock): BootLoader {
  let received: number[] = [];
  let wake = () => {};
  port.onData((bytes) => {
    received.push(...bytes);
    wake();
  });
  port.onClose(() => wake());

  /** Receives this many bytes; rejects when they do not arrive in time. */
  const receive = (count: number, ms: number) =>
    new Promise<number[]>((resolve, reject) => {
      const cancel = clock.setTimer(ms * clock.scale, () => {
        wake = () => {};
        reject(new NoBootLoader(`${received.length} of ${count} bytes came`));
      });
      wake = () => {
        if (received.length < count) return;
        wake = () => {};
        cancel();
        resolve(received.splice(0, count));
      };
      wake();
    });

  async function ask(command: number[], answerBytes = 0, ms = ANSWER_MS): Promise<Uint8Array> {
    received = [];
    const answer = receive(answerBytes + 2, ms);
    await Promise.all([port.write(Uint8Array.from([...command, END])), answer]);
    const bytes = await answer;
    if (bytes[0] !== IN_SYNC || bytes.at(-1) !== OK) throw new NoBootLoader(`it answered ${bytes.join(' ')}`);
    return Uint8Array.from(bytes.slice(1, -1));
  }

  async function loadAddress(address: number): Promise<void> {
    const word = address >> 1;
    await ask([LOAD_ADDRESS, word & 0xff, word >> 8]);
  }

  return {
    async synchronise() {
      for (let asked = 1; ; asked++) {
        try {
          await ask([GET_SYNC], 0, SYNC_MS);
          // Answers to the earlier requests may only be late, and must not be taken for the answer to the next.
          await receive((asked - 1) * 2, LATE_MS).catch(() => {});
          await ask([GET_SYNC]);
          return;
        } catch (error) {
          if (asked >= SYNC_TRIES || !(error instanceof NoBootLoader)) throw error;
        }
      }
    },
    signature: () => ask([READ_SIGNATURE], 3),
    async enter() {
      await ask([ENTER]);
    },
    async writePage(address, bytes) {
      await loadAddress(address);
      await ask([PROGRAM_PAGE, bytes.length >> 8, bytes.length & 0xff, FLASH, ...bytes]);
    },
    async readPage(address, length) {
      await loadAddress(address);
      return ask([READ_PAGE, length >> 8, length & 0xff, FLASH], length);
    },
    async leave() {
      await ask([LEAVE]);
    },
  };
}
