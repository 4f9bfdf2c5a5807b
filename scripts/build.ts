// `npm run build`: builds the page into dist/web, then the package's code into dist/service. `npm pack` afterwards
// makes the tarball; none of this is needed to run from the repository.
import { join } from 'node:path';
import { buildPackage } from './build/package.ts';
import { ensurePageBuilt } from './build/page.ts';

const root = join(import.meta.dirname, '..');
try {
  await ensurePageBuilt(console.log);
  console.log('compiling the service ...');
  await buildPackage(root);
  console.log('built: dist/web (the page) and dist/service (the package)');
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exit(1);
}
