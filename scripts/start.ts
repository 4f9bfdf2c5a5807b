// `npm start`: builds the page when it is stale, and runs the service.
import { ensurePageBuilt } from './build/page.ts';

try {
  await ensurePageBuilt();
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
}
await import('../server/main.ts');
