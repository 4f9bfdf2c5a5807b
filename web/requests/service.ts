/** Requests with the person's language, and the state that the service reports about itself. */
import { signal } from '@preact/signals';
import type { Health } from '../../shared/contract/health.ts';
import type { AnswerOf, Route } from '../../shared/contract/routes.ts';
import { language } from '../preferences/preferences.ts';
import { addressOf, type Method, Refusal, type RequestOf, request } from './http.ts';

export const health = signal<Health | undefined>(undefined);

/** False once the service has answered that this device is not paired. */
export const isPaired = signal(true);

/** One request to a route of the table, in the person's language. Throws Refusal or ServiceAway. */
export function call<R extends Route>(
  route: R,
  ...[{ params, query, body, timeoutMs } = {} as RequestOf<R>]: object extends RequestOf<R>
    ? [RequestOf<R>?]
    : [RequestOf<R>]
): Promise<AnswerOf<R>> {
  const { method, path } = addressOf(route, params, query);
  return requestAt(method, path, body, timeoutMs);
}

/** One request with an address made before by `addressOf`. Throws Refusal or ServiceAway. */
export function requestAt<T>(method: Method, path: string, body?: unknown, timeoutMs?: number): Promise<T> {
  const more = { ...(body !== undefined && { body }), ...(timeoutMs !== undefined && { timeoutMs }) };
  return noticing(request<T>(method, path, { language: language.value, ...more }));
}

/** Request the health of the service; throws ServiceAway when it does not answer within a few seconds. */
export async function askHealth(): Promise<void> {
  health.value = await call('GET /health', { timeoutMs: 4000 });
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
