/** Writes the page of the published dataset, `shared/dataset/README.md`, from its declarations. */
import { writeFileSync } from 'node:fs';
import { schemaPage } from './dataset/schema-page.ts';

writeFileSync(new URL('../shared/dataset/README.md', import.meta.url), schemaPage());
