/** The worker's end: takes jobs from a port, does them, sends answers at the pace of the reader. */
import { setImmediate as nextTurn } from 'node:timers/promises';
import type { Job, JobContext, JobStream, StreamJob } from './job.ts';
import { type FromWorker, PIECES_AHEAD, type ToWorker, writtenError } from './messages.ts';

export interface Port {
  send(message: FromWorker): void;
  onMessage(take: (message: ToWorker) => void): void;
}

export type Handler = (input: never, context: JobContext) => unknown;

/** Ties a job to the function that does it. */
export function handler<Input, Output>(
  job: Job<Input, Output>,
  work: (input: Input, context: JobContext) => Output | Promise<Output>,
): [string, Handler] {
  return [job.name, work];
}

/** The same for a job that answers piece by piece. */
export function streamHandler<Input, Head, Piece>(
  job: StreamJob<Input, Head, Piece>,
  work: (input: Input, context: JobContext) => JobStream<Head, Piece> | Promise<JobStream<Head, Piece>>,
): [string, Handler] {
  return [job.name, async (input: Input, context: JobContext) => new Streamed(await work(input, context))];
}

class Streamed {
  readonly stream: JobStream<unknown, unknown>;
  constructor(stream: JobStream<unknown, unknown>) {
    this.stream = stream;
  }
}

interface Running {
  cancel(): void;
  more(pieces: number): void;
}

/** More often nobody reads it. */
const PROGRESS_EVERY_MS = 100;

export function serveJobs(port: Port, handlers: ReadonlyMap<string, Handler>): void {
  const running = new Map<number, Running>();

  async function run({ id, name, input }: Extract<ToWorker, { type: 'job' }>): Promise<void> {
    const abort = new AbortController();
    const { signal } = abort;
    let allowed = PIECES_AHEAD;
    let wake = () => {};
    const cancel = () => {
      abort.abort();
      wake();
    };
    const more = (pieces: number) => {
      allowed += pieces;
      wake();
    };
    running.set(id, { cancel, more });
    let lastMs = Number.NEGATIVE_INFINITY;
    const context: JobContext = {
      signal,
      progress(done, of) {
        if (performance.now() - lastMs < PROGRESS_EVERY_MS && done < of) return;
        lastMs = performance.now();
        port.send({ type: 'progress', id, done, of });
      },
      publish: (event) => port.send({ type: 'event', id, event }),
    };

    async function sendPieces({ head, pieces }: JobStream<unknown, unknown>): Promise<void> {
      port.send({ type: 'head', id, head });
      for await (const piece of pieces) {
        // An empty one says only that work was done.
        if (!isEmpty(piece)) {
          while (allowed === 0 && !signal.aborted) await new Promise<void>((resolve) => (wake = resolve));
          allowed -= 1;
        }
        signal.throwIfAborted();
        if (!isEmpty(piece)) port.send({ type: 'piece', id, piece });
        await nextTurn();
      }
    }

    try {
      const work = handlers.get(name);
      if (!work) throw new Error(`The worker knows no job called ${name}.`);
      const output = await work(input as never, context);
      // A stream looks for itself, and closes what it holds open.
      if (output instanceof Streamed) await sendPieces(output.stream);
      else signal.throwIfAborted();
      port.send({ type: 'done', id, output: output instanceof Streamed ? undefined : output });
    } catch (error) {
      port.send({ type: 'failed', id, error: writtenError(error) });
    } finally {
      running.delete(id);
    }
  }

  port.onMessage((message) => {
    if (message.type === 'job') void run(message);
    else if (message.type === 'cancel') running.get(message.id)?.cancel();
    else running.get(message.id)?.more(message.pieces);
  });
}

function isEmpty(piece: unknown): boolean {
  return piece instanceof Uint8Array && piece.length === 0;
}
