import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { dataFiles } from '../../server/backup/backup-folder.ts';
import { temporaryFolder } from '../support/temporary-folder.ts';
import { testService } from '../support/test-service.ts';

test('the identity of a bench is the same after a restart and under another name, and a backup contains it', async () => {
  const folder = temporaryFolder();
  const first = await testService({ folder });
  const made = (await first.call('GET', '/api/bench')).body;
  expect(made.name).toMatch(/^Bench [0-9a-f]{6}$/);
  await first.close();

  const second = await testService({ folder });
  const named = (await second.call('PUT', '/api/bench', { name: ' Dye workshop ' })).body;
  expect(named).toEqual({ id: made.id, name: 'Dye workshop' });
  expect((await second.call('GET', '/api/bench')).body).toEqual(named);
  expect(dataFiles(folder)).toContain('bench.json');
});

test('an unreadable identity is refused, and not replaced', async () => {
  const folder = temporaryFolder();
  writeFileSync(join(folder, 'bench.json'), '{"id":');
  const { call } = await testService({ folder });
  for (const answer of [await call('GET', '/api/bench'), await call('PUT', '/api/bench', { name: 'Other' })]) {
    expect(answer.status).toBe(500);
    expect(answer.body.code).toBe('bench/unreadable');
  }
  expect(readFileSync(join(folder, 'bench.json'), 'utf8')).toBe('{"id":');
});
