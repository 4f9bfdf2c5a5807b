// `npm start`: the service, with the page built first when it is stale.
import { ensurePageBuilt } from './build/page.ts';

try {
  await ensurePageBuilt();
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
}
await import('../server/main.ts');
