import { expect } from 'vitest';
import { type TestService, type TestServiceOptions, testService } from './test-service.ts';

const NETWORK = { secure: false, names: new Set(['bench.test']), addresses: () => ['http://192.168.1.7:4280'] };
export const PHONE = '192.168.1.20';

/** Opens a bench to its network, with a function to send requests as a phone of that network. */
export async function openNetworkBench(options: TestServiceOptions = {}) {
  const service = await testService({ network: NETWORK, ...options });
  const asPhone = async (
    method: string,
    url: string,
    body?: unknown,
    { cookie = '', from = PHONE, headers = {} } = {},
  ) => {
    const response = await service.app.inject({
      method: method as 'GET',
      url,
      remoteAddress: from,
      headers: {
        host: 'bench.test:4280',
        ...(cookie && { cookie }),
        ...(body !== undefined && { 'content-type': 'application/json' }),
        ...headers,
      },
      ...(body !== undefined && { payload: JSON.stringify(body) }),
    });
    const json = String(response.headers['content-type']).startsWith('application/json') && response.body !== '';
    return { status: response.statusCode, headers: response.headers, body: json ? response.json() : undefined };
  };
  return { ...service, asPhone };
}

export async function codeOf({ call }: Pick<TestService, 'call'>): Promise<string> {
  return (await call('POST', '/api/pairing/code')).body.code;
}

/** Pairs a phone and returns its cookie as the browser sends it. */
export async function pair(bench: Awaited<ReturnType<typeof openNetworkBench>>, name?: string) {
  const answer = await bench.asPhone('POST', '/api/pairing', { code: await codeOf(bench), name });
  expect(answer.status).toBe(201);
  const [cookie = ''] = String(answer.headers['set-cookie']).split(';');
  return { cookie, id: answer.body.id as string };
}
