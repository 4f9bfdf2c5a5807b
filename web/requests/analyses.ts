/** Requests for results, which the service computes. The page computes none of its own. */
import type { MethodSet } from '../../shared/contract/burn-record.ts';
import type { Analysis } from '../../shared/contract/results.ts';
import { call } from './service.ts';

export function fetchAnalysis(burnId: string, method?: MethodSet): Promise<Analysis> {
  return call('GET /burns/:id/results', {
    params: { id: burnId },
    ...(method && { query: { method } }),
  });
}
