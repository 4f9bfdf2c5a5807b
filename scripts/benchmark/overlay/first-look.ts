// A process that opens a bench and asks for the curves of its burns, once: `first-look.ts FOLDER POINTS`. Tells how long that took,
// and how long it takes to parse the same curves.
import { buildApp } from '../../../server/app.ts';
import { createRealClock } from '../../../server/base/clock.ts';
import { median } from '../../../shared/statistics/quantile.ts';

const [folder = '', points = ''] = process.argv.slice(2);
const ROUNDS = 15;

const { app, store } = await buildApp({
  folder,
  pageFolder: folder,
  clock: createRealClock(1),
  ports: { open: () => Promise.reject(new Error('there are no ports here')), list: async () => [] },
});
const ids = store.documents.list('burn').map(({ id }) => id);
// Any service has answered something before: the page itself.
await app.inject('/api/health');
const start = performance.now();
const texts = await Promise.all(
  ids.map(async (id) => (await app.inject(`/api/burns/${id}/series?points=${points}`)).payload),
);
const firstMs = performance.now() - start;
const parseMs = Array.from({ length: ROUNDS }, () => {
  const from = performance.now();
  for (const text of texts) JSON.parse(text);
  return performance.now() - from;
});
await app.close();
process.stdout.write(JSON.stringify({ burns: ids.length, firstMs, parseMs: median(parseMs) }));
