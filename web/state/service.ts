/** Requests with the person's language, and what the service says about itself. */
import { signal } from '@preact/signals';
import type { Health } from '../../shared/contract/api.ts';
import type { Method } from '../lib/api.ts';
import { request } from '../lib/api.ts';
import { language } from './preferences.ts';

export const health = signal<Health | undefined>(undefined);

/** One request in the person's language. Throws Refusal or ServiceAway. */
export function call<T>(method: Method, path: string, body?: unknown): Promise<T> {
  return request<T>(method, path, { language: language.value, ...(body !== undefined && { body }) });
}

/** Ask the service how it is; throws ServiceAway when it does not answer within a few seconds. */
export async function askHealth(): Promise<void> {
  health.value = await request<Health>('GET', '/health', { language: language.value, timeoutMs: 4000 });
}

/** Burn seconds that pass in one second of this device. */
export function timeScale(): number {
  return health.value?.timeScale ?? 1;
}
