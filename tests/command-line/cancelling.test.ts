import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, vi } from 'vitest';
import { saveRecord } from '../../server/records/save-record.ts';
import { burnRecordSchema } from '../../shared/contract/burn-record.ts';
import sample from '../../shared/contract/sample-burn-record.json' with { type: 'json' };
import { holdWorker } from '../support/held-worker.ts';
import { PATIENCE_MS } from '../support/patience.ts';
import { repositoryRoot, temporaryFolder } from '../support/temporary-folder.ts';
import { testService } from '../support/test-service.ts';
import { stovebench, stovebenchStarted } from './run-command.ts';

test('Ctrl-C ends what the service does for a command at once, in a sentence, and leaves no half a file', async () => {
  const service = await testService();
  await saveRecord(service.store, burnRecordSchema.parse(sample));
  const url = await service.app.listen({ host: '127.0.0.1', port: 0 });
  const folder = temporaryFolder();
  const output = join(folder, 'all.zip');
  const { child, end } = stovebenchStarted(['export', '--all', '--service', url, '--output', output]);
  const underWay = async () => (await service.call('GET', '/api/work')).body;
  await holdWorker(underWay, ({ kind }) => kind === 'exporting');
  child.kill('SIGINT');
  const { code, stdout, stderr } = await end;
  expect([code, stdout]).toEqual([1, '']);
  expect(stderr).toBe('stovebench: Cancelled, as you asked. Nothing half done was left behind.\n');
  expect([readdirSync(folder), await underWay()]).toEqual([[], { work: [] }]);
});

test('Ctrl-C ends a command that computes from files at once, in a sentence', async () => {
  const file = join(repositoryRoot, 'shared/contract/sample-burn-record.json');
  const before = process.listenerCount('SIGINT');
  const end = stovebench(['analyse', file]);
  await vi.waitUntil(() => process.listenerCount('SIGINT') > before, { timeout: PATIENCE_MS, interval: 1 });
  process.listeners('SIGINT').at(-1)!('SIGINT');
  const { code, stdout, stderr } = await end;
  expect([code, stdout]).toEqual([1, '']);
  expect(stderr).toBe('stovebench: Cancelled, as you asked. Nothing half done was left behind.\n');
});

test('publishing that is cancelled says how far it came and leaves no half a file', async () => {
  const { call, store } = await testService();
  await saveRecord(store, burnRecordSchema.parse(sample));
  const folder = temporaryFolder();
  await call('POST', '/api/dataset', { folder });
  const [work] = (await call('GET', '/api/work')).body.work;
  expect(work.kind).toBe('publishing');
  expect((await call('DELETE', `/api/work/${work.id}`)).status).toBe(204);
  await expect
    .poll(async () => (await call('GET', '/api/dataset')).body.phase, { timeout: PATIENCE_MS })
    .toBe('failed');
  const { problem, doneFiles } = (await call('GET', '/api/dataset')).body;
  expect(problem).toEqual({ code: 'dataset/cancelled', params: { done: doneFiles, of: expect.any(Number), folder } });
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  expect(files.filter((path) => path.endsWith('.partial'))).toEqual([]);
  expect((await call('DELETE', `/api/work/${work.id}`)).body.code).toBe('work/over');
});
