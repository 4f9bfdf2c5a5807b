/** Requests with the person's language, and what the service says about itself. */
import { signal } from '@preact/signals';
import type { Health } from '../../shared/contract/health.ts';
import type { Method } from '../lib/api.ts';
import { Refusal, request } from '../lib/api.ts';
import { language } from './preferences.ts';

export const health = signal<Health | undefined>(undefined);

/** False once the service has said that it does not know this device. */
export const isPaired = signal(true);

/** One request in the person's language. Throws Refusal or ServiceAway. */
export function call<T>(method: Method, path: string, body?: unknown, timeoutMs?: number): Promise<T> {
  const more = { ...(body !== undefined && { body }), ...(timeoutMs !== undefined && { timeoutMs }) };
  return noticing(request<T>(method, path, { language: language.value, ...more }));
}

/** Ask the service how it is; throws ServiceAway when it does not answer within a few seconds. */
export async function askHealth(): Promise<void> {
  const asked = request<Health>('GET', '/health', { language: language.value, timeoutMs: 4000 });
  health.value = await noticing(asked);
  isPaired.value = true;
}

/** Whether a request failed only because this device is not paired (any more). */
export function isUnpaired(cause: unknown): boolean {
  return cause instanceof Refusal && cause.problem.code === 'pairing/needed';
}

async function noticing<T>(asked: Promise<T>): Promise<T> {
  try {
    return await asked;
  } catch (cause) {
    if (isUnpaired(cause)) isPaired.value = false;
    throw cause;
  }
}

/** Burn seconds that pass in one second of this device. */
export function timeScale(): number {
  return health.value?.timeScale ?? 1;
}
