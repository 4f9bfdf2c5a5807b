import type { FastifyInstance, FastifyRequest } from 'fastify';
import { AppError } from '../app-error.ts';

/** Names that only this machine itself has. */
const LOOPBACK_NAME = /^(localhost|127(?:\.\d{1,3}){3}|\[::1\])$/;

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

/** Keeps other web sites out: neither a name pointed at this machine nor a form posted from elsewhere gets anything. */
export function guard(app: FastifyInstance): void {
  app.addHook('onRequest', async (request, reply) => {
    reply.headers(securityHeaders);
    if (request.url.startsWith('/api/')) reply.header('cache-control', 'no-store');
    refuseForeignName(request);
    refuseForeignSite(request);
  });
}

/** DNS rebinding: a foreign name that resolves to this machine still stands in the Host header. */
function refuseForeignName(request: FastifyRequest): void {
  const host = request.headers.host ?? '';
  if (!LOOPBACK_NAME.test(withoutPort(host))) throw new AppError('request/host-refused', { host });
}

function refuseForeignSite(request: FastifyRequest): void {
  const { origin, host } = request.headers;
  const site = request.headers['sec-fetch-site'];
  const opensPage = request.method === 'GET' && !request.url.startsWith('/api/');
  if (opensPage) return;
  const foreignOrigin = origin !== undefined && origin !== `http://${host}`;
  const foreignSite = site === 'cross-site' || site === 'same-site';
  if (foreignOrigin || foreignSite) throw new AppError('request/origin-refused');
}

function withoutPort(host: string): string {
  return host.replace(/:\d+$/, '').toLowerCase();
}
