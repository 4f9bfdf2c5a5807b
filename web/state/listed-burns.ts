/** What the list of burns shows besides their descriptions: curves and results, fetched page by page. */
import { computed, signal } from '@preact/signals';
import type { BurnSummary } from '../../shared/contract/burns.ts';
import { listedFigures } from '../../shared/contract/listed-results.ts';
import { fetchAnalysis } from '../requests/analyses.ts';
import { call } from '../requests/service.ts';
import { burns, loadBurns } from './burns.ts';

/** Burns per page: the first ones arrive soon, and no request blocks the service for long. */
const PAGE = 60;

/** Whether curves and results have been fetched; before that, missing ones are still to come with their page. */
const isFetched = signal(false);

/** Burns whose results have not been computed since they were changed. */
export const notWorkedOut = computed(() => (isFetched.value ? (burns.value ?? []).filter(hasNoFigures) : []));

/** Load the whole list, then curves and results of all burns. */
export async function loadListedBurns(): Promise<void> {
  await loadBurns();
  let after: string | undefined;
  do {
    const page = await call('GET /burns', {
      query: { limit: PAGE, with: 'curve,figures', ...(after !== undefined && { after }) },
    });
    const fetched = new Map(page.burns.map((burn) => [burn.id, burn]));
    burns.value = burns.value?.map((burn) => fetched.get(burn.id) ?? burn);
    after = page.next;
  } while (after !== undefined);
  isFetched.value = true;
}

/**
 * Request the results of one burn. Results that cannot be computed stay empty; the page of the burn gives the reason.
 */
export async function workOut({ id }: BurnSummary): Promise<void> {
  const figures = await fetchAnalysis(id).then(
    ({ results }) => listedFigures(results),
    () => [],
  );
  burns.value = burns.value?.map((burn) => (burn.id === id ? { ...burn, figures } : burn));
}

function hasNoFigures({ status, figures }: BurnSummary): boolean {
  return figures === undefined && (status === 'ended' || status === 'complete' || status === 'setAside');
}
