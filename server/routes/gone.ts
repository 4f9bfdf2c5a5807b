import type { FastifyReply } from 'fastify';
import { AppError } from '../base/app-error.ts';

/**
 * Aborted when whoever asked goes away before the answer is whole: nobody is to work for them any more.
 * @param onClose called when that has happened, or the answer is whole
 */
export function goneSignal({ raw }: Pick<FastifyReply, 'raw'>, onClose?: () => void): AbortSignal {
  const gone = new AbortController();
  raw.once('close', () => {
    if (!raw.writableFinished) gone.abort(new AppError('worker/cancelled'));
    onClose?.();
  });
  return gone.signal;
}
