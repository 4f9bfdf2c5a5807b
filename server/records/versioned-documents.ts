/** Documents in the form of the answers of the routes: the body together with its version. */
import type { Burn } from '../../shared/contract/burns.ts';
import type { VersionedExclusion, VersionedMark, VersionedWeighing } from '../../shared/contract/entries.ts';
import { AppError } from '../base/app-error.ts';
import type { Store, StoredDocument } from '../store/store.ts';

export const versionedMark = ({ body, version, withdrawn }: StoredDocument<'mark'>): VersionedMark => ({
  mark: body,
  version,
  withdrawn,
});
export const versionedWeighing = ({ body, version, withdrawn }: StoredDocument<'weighing'>): VersionedWeighing => ({
  weighing: body,
  version,
  withdrawn,
});
export const versionedExclusion = ({ body, version, withdrawn }: StoredDocument<'exclusion'>): VersionedExclusion => ({
  exclusion: body,
  version,
  withdrawn,
});
export const versionedBurn = ({ body, version }: StoredDocument<'burn'>): Burn => ({ ...body, version });

/** @throws AppError burn/not-found */
export function findBurn(store: Store, id: string): StoredDocument<'burn'> {
  const found = store.documents.get('burn', id);
  if (!found || found.withdrawn) throw new AppError('burn/not-found', { id });
  return found;
}
