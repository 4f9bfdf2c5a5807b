/** What a list shows of a burn besides its description: computed results, and what is still to be weighed. */
import type { ListedFigure } from '../../shared/contract/burns.ts';
import { listedFigures } from '../../shared/contract/listed-results.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';
import { storedAnalysis } from '../results/stored-analysis.ts';
import type { Store, StoredDocument } from '../store/store.ts';

/** Undefined while the results of the present state of the burn have not been computed. */
export function storedFigures(store: Store, { id, body }: StoredDocument<'burn'>): ListedFigure[] | undefined {
  if (body.status === 'planned') return [];
  const analysis = storedAnalysis(store, id);
  return analysis && listedFigures(analysis.results);
}

/** In the order of weighing; the pile only if it was weighed before, and nothing for a pot that only cooled. */
export function toWeigh(store: Store, burnId: string): Weighing['of'][] {
  if (store.documents.get('burn', burnId)?.body.purpose === 'cooling') return [];
  const weighings = store.documents
    .ofBurn('weighing', burnId)
    .filter(({ withdrawn }) => !withdrawn)
    .map(({ body }) => body);
  const isWeighed = (of: Weighing['of']) =>
    weighings.some((each) => each.of === of && each.when === 'end' && (each.massKg ?? each.volumeL) !== undefined);
  const hasPile = weighings.some(({ of, when }) => of === 'fuelPile' && when === 'start');
  return (['char', ...(hasPile ? ['fuelPile' as const] : []), 'water'] as const).filter((of) => !isWeighed(of));
}
