import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import type { BoardOrder, BoardSettings, BoardWord } from './board.ts';

/** Controls the board process of a history. */
export class BoardLink {
  readonly #child: ChildProcess;
  /** One order at a time: answers contain only the name of the order. */
  #turn: Promise<unknown> = Promise.resolve();

  constructor(settings: BoardSettings) {
    this.#child = fork(join(import.meta.dirname, 'board.ts'), [JSON.stringify(settings)]);
  }

  get pid(): number | undefined {
    return this.#child.pid;
  }

  /** Resolves when it is done. */
  order(order: BoardOrder): Promise<void> {
    const done = this.#turn.then(async () => {
      const answered = this.#word((word) => 'done' in word || 'failed' in word);
      this.#child.send(order);
      const word = await answered;
      if ('failed' in word) throw new Error(`The board could not ${order.do}: ${word.failed}`);
    });
    this.#turn = done.catch(() => {});
    return done;
  }

  /** Resolves when the board next begins to send scans again; with false when it has not within `ms`. */
  async repeats(ms: number): Promise<boolean> {
    return Promise.race([
      this.#word((word) => 'repeating' in word).then(() => true),
      new Promise<boolean>((resolve) => setTimeout(() => resolve(false), ms)),
    ]);
  }

  async switchOff(): Promise<void> {
    if (this.#child.exitCode !== null || this.#child.signalCode !== null) return;
    const ended = once(this.#child, 'exit');
    this.#child.disconnect();
    await ended;
  }

  #word(fits: (word: BoardWord) => boolean): Promise<BoardWord> {
    return new Promise((resolve, reject) => {
      const finish = (end: () => void) => {
        this.#child.off('message', receive);
        this.#child.off('exit', gone);
        end();
      };
      const receive = (word: BoardWord) => {
        if (fits(word)) finish(() => resolve(word));
      };
      const gone = () => finish(() => reject(new Error('The board process has ended.')));
      this.#child.on('message', receive);
      this.#child.on('exit', gone);
    });
  }
}
