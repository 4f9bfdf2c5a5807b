/** What the worker process can be asked, by name; the types say what goes in and what comes out. */

/**
 * Which work waits for which. `live`: short, somebody looks at it now; it waits for nothing. `long`: over whole burns, one at a time, with
 * turns for short work. `foreign`: reads what others made, which may hold up whatever computes it for any time; in a thread of its own.
 * `idle`: nobody waits for it; it begins, one at a time, once there has been nothing else to do for a second.
 */
export type Queue = 'live' | 'long' | 'foreign' | 'idle';

/** Work with one answer. */
export interface Job<Input, Output> {
  readonly name: string;
  readonly queue: Queue;
  /** Never there: it ties the types to the name. */
  readonly types?: (input: Input) => Output;
}

/** Work that answers with a head, and then piece by piece as it is read. */
export interface StreamJob<Input, Head, Piece> {
  readonly name: string;
  readonly queue: Queue;
  /** Never there, as above. */
  readonly types?: (input: Input) => JobStream<Head, Piece>;
}

export interface JobStream<Head, Piece> {
  head: Head;
  pieces: Iterable<Piece> | AsyncIterable<Piece>;
}

/** What a job may do besides answering. */
export interface JobContext {
  /** Aborted when nobody wants the answer any more. */
  readonly signal: AbortSignal;
  progress(done: number, of: number): void;
  /** Sends the service what it should know of or save, before the answer. */
  publish(event: unknown): void;
}
