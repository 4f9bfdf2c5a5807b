import type { FastifyReply } from 'fastify';

/** Aborted when whoever asked goes away before the answer is whole: nobody is to work for them any more. */
export function goneSignal({ raw }: Pick<FastifyReply, 'raw'>): AbortSignal {
  const gone = new AbortController();
  raw.once('close', () => {
    if (!raw.writableFinished) gone.abort();
  });
  return gone.signal;
}
