/** Documents as the routes answer them: the body with its version beside it. */
import type { Burn, KeptExclusion, KeptMark, KeptWeighing } from '../../shared/contract/api.ts';
import { AppError } from '../base/app-error.ts';
import type { KeptDocument, Store } from '../store/store.ts';

export const keptMark = ({ body, version, withdrawn }: KeptDocument<'mark'>): KeptMark => ({
  mark: body,
  version,
  withdrawn,
});
export const keptWeighing = ({ body, version, withdrawn }: KeptDocument<'weighing'>): KeptWeighing => ({
  weighing: body,
  version,
  withdrawn,
});
export const keptExclusion = ({ body, version, withdrawn }: KeptDocument<'exclusion'>): KeptExclusion => ({
  exclusion: body,
  version,
  withdrawn,
});
export const keptBurn = ({ body, version }: KeptDocument<'burn'>): Burn => ({ ...body, version });

/** @throws AppError burn/not-found */
export function findBurn(store: Store, id: string): KeptDocument<'burn'> {
  const found = store.documents.get('burn', id);
  if (!found || found.withdrawn) throw new AppError('burn/not-found', { id });
  return found;
}
