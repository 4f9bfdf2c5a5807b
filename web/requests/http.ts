/**
 * Requests to the service. A refusal and an unreachable service are two different errors, because only the second is
 * worth a retry.
 */
import type { Problem } from '../../shared/contract/problem.ts';
import type { BodyOf, OtherRoute, ParamsOf, QueryOf, Route, routes } from '../../shared/contract/routes.ts';

/** The service answered with a refusal; `problem.message` is a sentence to show. */
export class Refusal extends Error {
  readonly status: number;
  readonly problem: Problem;
  constructor(status: number, problem: Problem) {
    super(problem.message);
    this.status = status;
    this.problem = problem;
  }
}

/** No answer, or an answer of another server: try again later. */
export class ServiceAway extends Error {}

export type Method = 'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE';

/**
 * The parts of a request besides its route: the names in its path, and a query, a body or a file where the route takes
 * one.
 */
export type RequestOf<R extends Route> = ParamsPart<keyof ParamsOf<R>> &
  BodyPart<(typeof routes)[R] extends { file: true } ? Blob : BodyOf<R>> &
  QueryPart<QueryOf<R>> & { readonly timeoutMs?: number };
type ParamsPart<Name extends string> = [Name] extends [never]
  ? { readonly params?: undefined }
  : { readonly params: Readonly<Record<Name, string>> };
type QueryPart<Query> = [Query] extends [undefined]
  ? { readonly query?: undefined }
  : object extends Query
    ? { readonly query?: Query }
    : { readonly query: Query };
type BodyPart<Body> = [Body] extends [undefined] ? { readonly body?: undefined } : { readonly body: Body };

/** Method and address of a route, with its names filled in. */
export function addressOf(
  route: Route | OtherRoute,
  params: Readonly<Record<string, string>> = {},
  query?: Query,
): { method: Method; path: string } {
  const [method, pattern = ''] = route.split(' ');
  const path = pattern.replace(/:(\w+)/g, (_, name: string) => encodeURIComponent(params[name] ?? ''));
  const asked = query ? queryText(query) : '';
  return { method: method as Method, path: asked ? `${path}?${asked}` : path };
}

/** Address of a file, or of the live stream, that the browser fetches itself. */
export function linkTo<R extends OtherRoute & `GET ${string}`>(
  route: R,
  { params, query }: ParamsPart<keyof ParamsOf<R>> & { readonly query?: Query },
): string {
  return `/api${addressOf(route, params, query).path}`;
}

type Query = Readonly<Record<string, unknown>>;

/** The query string; undefined values are omitted. */
function queryText(query: Query): string {
  const given = Object.entries(query).filter(([, value]) => value !== undefined);
  return new URLSearchParams(given.map(([name, value]) => [name, String(value)])).toString();
}

/**
 * Send one request under /api.
 * @param body sent as JSON; a file is sent unchanged
 * @param language sent as Accept-Language, so that refusals are in the person's language
 * @throws Refusal when the service refuses; ServiceAway when it cannot be reached, takes too long or another server
 *   answers
 */
export async function request<T>(
  method: Method,
  path: string,
  { body, language, timeoutMs = 20_000 }: { body?: unknown; language: string; timeoutMs?: number },
): Promise<T> {
  let response: Response;
  try {
    response = await fetch(`/api${path}`, {
      method,
      headers: {
        'Accept-Language': language,
        ...(body !== undefined && { 'Content-Type': body instanceof Blob ? body.type : 'application/json' }),
      },
      ...(body !== undefined && { body: body instanceof Blob ? body : JSON.stringify(body) }),
      signal: AbortSignal.timeout(timeoutMs),
      cache: 'no-store',
    });
  } catch (cause) {
    throw new ServiceAway(`${method} ${path}`, { cause });
  }
  if (response.status === 204) return undefined as T;
  const answer: unknown = await response.json().catch(() => undefined);
  if (response.ok && answer !== undefined) return answer as T;
  if (isProblem(answer)) throw new Refusal(response.status, answer);
  throw new ServiceAway(`${method} ${path}: ${response.status}`);
}

function isProblem(answer: unknown): answer is Problem {
  return typeof answer === 'object' && answer !== null && 'code' in answer && 'message' in answer;
}
