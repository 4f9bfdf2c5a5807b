import type { FastifyInstance, FastifyRequest } from 'fastify';
import { AppError } from '../base/app-error.ts';
import { isAddressAsked, isLoopbackName, nameAsked } from '../network/own-machine.ts';
import type { Pairing } from '../pairing/pairing.ts';

/** Beside the files of the page, which hold nobody's data, what anybody on the network gets: the way to be let in. */
const OPEN_API = '/api/pairing';

/**
 * The page loads nothing from anywhere else and can be framed by nobody; scripts and styles stand in files.
 * `blob:` and `data:` are for photos chosen and pictures drawn by the page itself.
 */
const CONTENT_SECURITY_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "style-src 'self'",
  "img-src 'self' blob: data:",
  "media-src 'self' blob: data:",
  "font-src 'self'",
  "connect-src 'self'",
  "worker-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'self'",
  "frame-ancestors 'none'",
].join('; ');

export const securityHeaders: Readonly<Record<string, string>> = {
  'content-security-policy': CONTENT_SECURITY_POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'geolocation=(), microphone=(), camera=(self), screen-wake-lock=(self)',
};

/**
 * Keeps out other web sites (neither a name pointed at this machine nor a form posted from elsewhere gets anything) and
 * strangers of the network.
 * @param names in lower case, that this machine goes by on the network
 */
export function guard(app: FastifyInstance, names: ReadonlySet<string>, pairing: Pairing): void {
  app.addHook('onRequest', async (request, reply) => {
    reply.headers(securityHeaders);
    if (isApi(request)) reply.header('cache-control', 'no-store');
    refuseForeignName(request, names);
    refuseForeignSite(request);
    refuseStranger(request, pairing);
  });
}

/** By the route that was found, too: the address itself can be spelt in many ways. */
function isApi(request: FastifyRequest): boolean {
  return [request.routeOptions.url, request.url].some((path) => path?.startsWith('/api/'));
}

/** DNS rebinding: a foreign name that resolves to this machine still stands in the Host header. */
function refuseForeignName({ raw }: FastifyRequest, names: ReadonlySet<string>): void {
  const name = nameAsked(raw);
  if (isLoopbackName(name) || names.has(name) || isAddressAsked(raw, name)) return;
  throw new AppError('request/host-refused', { host: raw.headers.host ?? '' });
}

function refuseForeignSite(request: FastifyRequest): void {
  const { origin, host } = request.headers;
  const site = request.headers['sec-fetch-site'];
  const opensPage = request.method === 'GET' && !isApi(request);
  if (opensPage) return;
  const foreignOrigin = origin !== undefined && origin !== `${request.protocol}://${host}`;
  const foreignSite = site === 'cross-site' || site === 'same-site';
  if (foreignOrigin || foreignSite) throw new AppError('request/origin-refused');
}

function refuseStranger(request: FastifyRequest, pairing: Pairing): void {
  const isOpen = !isApi(request) || request.routeOptions.url === OPEN_API;
  if (!isOpen && pairing.visitor(request.raw).kind === 'stranger') throw new AppError('pairing/needed');
}
