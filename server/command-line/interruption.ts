/** Ctrl-C: what a command has begun ends by itself and is cleared away. A second one ends the process as it is. */
import { AppError } from '../base/app-error.ts';

/** Does `work` with a signal that Ctrl-C aborts. */
export async function withInterruption<T>(work: (interrupted: AbortSignal) => Promise<T>): Promise<T> {
  const interruption = new AbortController();
  const interrupt = () => interruption.abort(new AppError('command/cancelled'));
  process.once('SIGINT', interrupt);
  try {
    return await work(interruption.signal);
  } finally {
    process.off('SIGINT', interrupt);
  }
}
