import type { ImportOutcome } from '../../shared/contract/imports.ts';
import { print } from '../base/command-options.ts';
import { answered, type Client } from './client.ts';
import { ServiceRefusal } from './service-refusal.ts';

/**
 * Saves a waiting import. Where it differs from the stored data, the differences are printed for the person to choose.
 * @throws ServiceRefusal; the import no longer waits then
 */
export async function saveImport(client: Client, id: string, how: object): Promise<ImportOutcome> {
  try {
    return await answered<ImportOutcome>(client.request('POST', `/api/imports/${id}/keep`, { json: how }));
  } catch (error) {
    if (error instanceof ServiceRefusal && error.code === 'import/differs') print(error.details);
    await client.request('DELETE', `/api/imports/${id}`).catch(() => {});
    throw error;
  }
}
