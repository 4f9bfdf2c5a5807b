import { onTestFinished } from 'vitest';
import { type AppOptions, buildApp, type Service } from '../../server/app.ts';
import type { PortFactory } from '../../server/bridge/port.ts';
import { createInProcessPorts, type InProcessPorts } from '../../server/simulator/in-process-ports.ts';
import { createFakeClock, type FakeClock } from './fake-clock.ts';
import { temporaryFolder } from './temporary-folder.ts';

export interface Answer {
  status: number;
  headers: Record<string, string | string[] | number | undefined>;
  /** Parsed JSON; undefined for an empty answer. */
  // biome-ignore lint/suspicious/noExplicitAny: tests look into answers of every shape, and a wrong look fails the test
  body: any;
  text: string;
}

export interface TestService extends Service {
  clock: FakeClock;
  ports: InProcessPorts;
  folder: string;
  /** Errors outside of any request. */
  troubles: unknown[];
  call(method: string, path: string, body?: unknown, headers?: Record<string, string>): Promise<Answer>;
  /** Closes the service; this happens at the end of the test at the latest. */
  close(): Promise<void>;
}

export interface TestServiceOptions
  extends Partial<Pick<AppOptions, 'folder' | 'pageFolder' | 'demo' | 'network' | 'mostWaitingScans' | 'ring'>> {
  clock?: FakeClock;
  ports?: InProcessPorts;
  portFactory?: PortFactory;
}

/** Starts the whole service with a folder, a clock and ports for this test; it does not listen on the network. */
export async function testService(options: TestServiceOptions = {}): Promise<TestService> {
  const clock = options.clock ?? createFakeClock();
  const ports = options.ports ?? createInProcessPorts();
  const folder = options.folder ?? temporaryFolder();
  const troubles: unknown[] = [];
  const service = await buildApp({
    folder,
    clock,
    ports: options.portFactory ?? ports.factory,
    pageFolder: options.pageFolder ?? temporaryFolder(),
    demo: options.demo ?? false,
    ...(options.mostWaitingScans !== undefined && { mostWaitingScans: options.mostWaitingScans }),
    ...(options.ring && { ring: options.ring }),
    ...(options.network && { network: options.network }),
    onTrouble: (error) => troubles.push(error),
  });
  let closed: Promise<void> | undefined;
  const close = () => {
    closed ??= service.app.close();
    return closed;
  };
  onTestFinished(close);
  service.resume();
  return {
    ...service,
    clock,
    ports,
    folder,
    troubles,
    close,
    async call(method, url, body, headers = {}) {
      const response = await service.app.inject({
        method: method as 'GET',
        url,
        headers: { ...(body !== undefined && { 'content-type': 'application/json' }), ...headers },
        ...(body !== undefined && { payload: JSON.stringify(body) }),
      });
      const json = String(response.headers['content-type']).startsWith('application/json');
      return {
        status: response.statusCode,
        headers: response.headers,
        body: json && response.body !== '' ? response.json() : undefined,
        text: response.body,
      };
    },
  };
}
