import type { FastifyReply } from 'fastify';

/** RFC 6266: a plain name for everybody, the true one for those who read RFC 8187. */
export function attachment(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/[^\w .#-]/g, '')
    .trim();
  const exact = encodeURIComponent(name.toWellFormed()).replace(
    /['()*]/g,
    (c) => `%${c.charCodeAt(0).toString(16).toUpperCase()}`,
  );
  return `attachment; filename="${plain}"; filename*=UTF-8''${exact}`;
}

/** Answers with a file to be saved under a name. Bytes of another process come without the methods that sending needs. */
export function sendAttachment(
  reply: Pick<FastifyReply, 'header' | 'send'>,
  mediaType: string,
  name: string,
  file: string | Uint8Array,
): never {
  reply.header('content-type', mediaType);
  reply.header('content-disposition', attachment(name));
  return reply.send(typeof file === 'string' ? file : Buffer.from(file)) as never;
}
