import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildApp } from '../../server/app.ts';
import { createRealClock } from '../../server/base/clock.ts';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import { type Check, findingOfLines } from './check.ts';
import { type OpenApiDocument, openApiFaults } from './open-api-rules.ts';

/** Checks that the OpenAPI document of the service describes each route sufficiently for a foreign client. */
export const openApiCheck: Check = {
  name: 'OpenAPI document',
  run: async () => findingOfLines(openApiFaults(await document()), 'the OpenAPI document is incomplete:'),
};

async function document(): Promise<OpenApiDocument> {
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-check-'));
  const clock = createRealClock();
  const { app } = await buildApp({ folder, pageFolder: folder, clock, ports: serialPortFactory });
  try {
    return (await app.inject('/api/openapi.json')).json<OpenApiDocument>();
  } finally {
    await app.close();
    rmSync(folder, { recursive: true, force: true });
  }
}
