import { once } from 'node:events';
import { createServer, request } from 'node:http';
import { onTestFinished } from 'vitest';
import { MAPPED_HOST } from '../support/browser.ts';
import type { BenchWithPage } from './bench-with-page.ts';

/** The error that a browser logs by itself for a page over plain http by name. */
export const headerForSecureAddresses = /Cross-Origin-Opener-Policy header has been ignored/;

/**
 * A proxy between the service, which accepts only loopback names, and a browser that uses a host name over plain http,
 * as a phone would, so that the page has to work without features that browsers reserve for secure addresses.
 */
export async function serviceByName(bench: BenchWithPage): Promise<string> {
  const inside = `127.0.0.1:${bench.port}`;
  const proxy = createServer((incoming, outgoing) => {
    const { origin, ...headers } = incoming.headers;
    const passed = request(
      {
        host: '127.0.0.1',
        port: bench.port,
        method: incoming.method,
        path: incoming.url,
        headers: { ...headers, host: inside, ...(origin && { origin: `http://${inside}` }) },
      },
      (answer) => {
        outgoing.writeHead(answer.statusCode ?? 502, answer.headers);
        answer.pipe(outgoing);
      },
    );
    passed.on('error', () => outgoing.destroy());
    outgoing.on('close', () => passed.destroy());
    incoming.pipe(passed);
  });
  proxy.listen(0, '127.0.0.1');
  await once(proxy, 'listening');
  onTestFinished(() => {
    proxy.closeAllConnections();
    proxy.close();
  });
  return `http://${MAPPED_HOST}:${(proxy.address() as { port: number }).port}/`;
}
