import type { BurnSummary } from '../../shared/contract/burns.ts';
import { AppError } from '../base/app-error.ts';
import { answered, type Client } from './client.ts';

export async function listBurns(client: Client): Promise<BurnSummary[]> {
  return (await answered<{ burns: BurnSummary[] }>(client.request('GET', '/api/burns'))).burns;
}

/**
 * Finds the burn that a person names: by its identifier or the beginning of one, by its title, or the latest.
 * @param burns newest first
 * @throws AppError command/burn-unknown, command/burn-unclear
 */
export function findBurn(burns: readonly BurnSummary[], text: string): BurnSummary {
  const wanted = text.trim().toLowerCase();
  const ways: ((burn: BurnSummary, index: number) => boolean)[] = [
    ({ id }) => id === wanted,
    ({ title }) => title.toLowerCase() === wanted,
    (_, index) => wanted === 'latest' && index === 0,
    ({ id }) => wanted.length >= 4 && id.startsWith(wanted),
    ({ title }) => title.toLowerCase().startsWith(wanted),
  ];
  for (const way of ways) {
    const found = burns.filter(way);
    if (found.length === 1) return found[0]!;
    if (found.length > 1) throw new AppError('command/burn-unclear', { text, count: found.length });
  }
  throw new AppError('command/burn-unknown', { text });
}
