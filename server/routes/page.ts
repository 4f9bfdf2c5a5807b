import { existsSync } from 'node:fs';
import { join } from 'node:path';
import fastifyStatic from '@fastify/static';
import { AppError } from '../base/app-error.ts';
import type { App } from './validation.ts';

const YEAR_S = 365 * 24 * 3600;
/** Where the builder of the page puts files named by their content. */
const NAMED_BY_CONTENT = /[/\\]assets[/\\]/;

/**
 * The page, from the folder it is built into. Its address names a screen, so whatever is neither a file nor part of
 * /api answers with the page itself.
 * @param methodsOf which methods a path of /api answers to
 */
export async function pageRoutes(app: App, folder: string, methodsOf: (path: string) => string[]): Promise<void> {
  await app.register(fastifyStatic, {
    root: folder,
    cacheControl: false,
    setHeaders(reply, path) {
      const forever = NAMED_BY_CONTENT.test(path);
      reply.header('cache-control', forever ? `public, max-age=${YEAR_S}, immutable` : 'no-cache');
    },
  });

  app.setNotFoundHandler(async (request, reply) => {
    const path = request.url.split('?')[0] ?? '';
    const wantsPage = request.method === 'GET' && !path.startsWith('/api/') && !/\.\w+$/.test(path);
    if (!wantsPage) {
      const allowed = methodsOf(path).join(', ');
      if (allowed === '') throw new AppError('request/not-found', { path });
      reply.header('allow', allowed);
      throw new AppError('request/method-refused', { path, method: request.method, allowed });
    }
    if (!existsSync(join(folder, 'index.html'))) throw new AppError('page/not-built');
    return reply.sendFile('index.html');
  });
}
