/**
 * What comparisons read of a finished burn, stored in a row of its own: a third of the analysis, and valid by a look at the keys of the
 * burn's rows, so that the first comparison after a start takes little longer than the next.
 */
import { METHOD_VERSION } from '../../shared/analysis/versions.ts';
import type { BurnDocument, ComparedBurn, ResultWithBudget } from '../../shared/comparison/compared-burn.ts';
import type { Analysis, BudgetEntry, MissingResult } from '../../shared/contract/results.ts';
import { statedBurn, type UsedDocument } from '../records/record-without-readings.ts';
import type { Store } from '../store/store.ts';

/** Another version of the definitions has another name. */
const NAME = `compared ${METHOD_VERSION}`;

type InputError = Omit<BudgetEntry, 'contribution'>;

interface StoredBurn {
  inventory: readonly UsedDocument[];
  burn: BurnDocument;
  method: string;
  moments: Analysis['moments'];
  /** Most results owe to the same errors, which take two thirds of the analysis when each is written out. */
  errors: readonly InputError[];
  results: readonly (MissingResult | StoredResult)[];
}

interface StoredResult extends Omit<ResultWithBudget, 'budget'> {
  /** Indices into the errors, each with its contribution. */
  budget?: [error: number, contribution: number][];
}

/** Undefined where none is stored for the present state of the burn. */
export function storedComparedBurn(store: Store, burnId: string): ComparedBurn | undefined {
  const stored = store.derived.get(burnId, NAME, store.versionOf(burnId)) as StoredBurn | undefined;
  const isCurrent = stored?.inventory.every(
    ({ kind, id, version }) => (store.documents.get(kind, id)?.version ?? 0) === version,
  );
  return isCurrent ? unpacked(stored!) : undefined;
}

/**
 * @param stamp of the state of the burn that the analysis was made from; where the burn has changed since, nothing is stored
 * @param put takes what is to be stored, with its burn, name and stamp
 */
export function saveComparedBurn(
  store: Store,
  burnId: string,
  { stamp, analysis }: { stamp: string; analysis: Analysis },
  put: Store['derived']['put'],
): void {
  // Read before the state, so that what is written in between leaves a version that is never valid.
  const version = store.versionOf(burnId);
  const { record, inventory, stamp: present } = statedBurn(store, burnId);
  if (present !== stamp || record.status === 'running') return;
  put(burnId, NAME, version, { inventory, ...packed({ burn: record, analysis }) });
}

/** Leaves out what comparisons do not read. */
function packed({
  burn: { channels: _channels, gaps: _gaps, exclusions: _exclusions, ...burn },
  analysis,
}: {
  burn: ReturnType<typeof statedBurn>['record'];
  analysis: Analysis;
}): Omit<StoredBurn, 'inventory'> {
  const errors = new Map<string, { index: number; error: InputError }>();
  function indexOf(error: InputError): number {
    const text = JSON.stringify(error);
    const { index } = errors.get(text) ?? { index: errors.size };
    errors.set(text, { index, error });
    return index;
  }
  const results = analysis.results.map((result): MissingResult | StoredResult => {
    if ('missing' in result) return result;
    const { id, value, unit, standardUncertainty, budget } = result;
    return {
      id,
      value,
      unit,
      ...(standardUncertainty !== undefined && { standardUncertainty }),
      ...(budget && { budget: budget.map(({ contribution, ...error }) => [indexOf(error), contribution]) }),
    };
  });
  const { method, moments } = analysis;
  return { burn, method, moments, errors: Array.from(errors.values(), ({ error }) => error), results };
}

function unpacked({ burn, method, moments, errors, results }: StoredBurn): ComparedBurn {
  const withBudget = (result: MissingResult | StoredResult): MissingResult | ResultWithBudget => {
    if ('missing' in result || !result.budget) return result as MissingResult | ResultWithBudget;
    return {
      ...result,
      budget: result.budget.map(([error, contribution]) => ({ ...errors[error]!, contribution })),
    };
  };
  return { burn, analysis: { method, moments, results: results.map(withBudget) } };
}
