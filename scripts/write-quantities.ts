/** Writes the page of quantities, `shared/analysis/quantities/README.md`, from their declarations. */
import { writeFileSync } from 'node:fs';
import { quantitiesPage } from './quantities/quantities-page.ts';

writeFileSync(new URL('../shared/analysis/quantities/README.md', import.meta.url), quantitiesPage());
