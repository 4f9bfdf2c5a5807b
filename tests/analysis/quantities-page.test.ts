import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { quantitiesPage } from '../../scripts/quantities/quantities-page.ts';

it('the page of quantities is that made from the declarations', () => {
  const page = readFileSync(new URL('../../shared/analysis/quantities/README.md', import.meta.url), 'utf8');
  expect(page).toBe(quantitiesPage());
});
