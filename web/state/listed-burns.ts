/** What the list of burns shows beyond their descriptions: curves and results, fetched page by page. */
import { computed, signal } from '@preact/signals';
import type { BurnSummary } from '../../shared/contract/burns.ts';
import { listedFigures } from '../../shared/contract/listed-results.ts';
import { fetchAnalysis } from '../requests/analyses.ts';
import { call } from '../requests/service.ts';
import { burns, loadBurns } from './burns.ts';

/** Burns a page: the first of them are there soon, and the service is held up by none. */
const PAGE = 60;

/** Whether curves and figures have been fetched; before that, what lacks them waits for its page. */
const isFetched = signal(false);

/** Burns whose results nobody has worked out since they were changed. */
export const notWorkedOut = computed(() => (isFetched.value ? (burns.value ?? []).filter(hasNoFigures) : []));

/** Read the whole list, then curves and figures of all burns. */
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

/** Has the results of one burn worked out. What cannot be worked out leaves its places empty; the burn itself says why. */
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
