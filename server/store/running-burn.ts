import type { Store } from './store.ts';

/** Whether any burn is being recorded: its boards are not to be touched. */
export function hasRunningBurn({ documents }: Pick<Store, 'documents'>): boolean {
  return documents.list('burn').some(({ body, withdrawn }) => !withdrawn && body.status === 'running');
}
