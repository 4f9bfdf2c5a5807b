import { z } from 'zod';
import { photoNameSchema, photoSchema } from '../../shared/contract/photos.ts';
import { AppError } from '../base/app-error.ts';
import { LIMIT_MB, type Photos } from '../photos/photos.ts';
import { fileBody, fileOf, problems } from './bodies.ts';
import { goneSignal } from './gone.ts';
import type { App } from './validation.ts';

const YEAR_S = 365 * 24 * 3600;
const tags = ['photos'];
const types: Record<string, string> = { jpg: 'image/jpeg', png: 'image/png', webp: 'image/webp' };

export async function photoRoutes(app: App, photos: Photos): Promise<void> {
  await app.register(async (scope: App) => {
    const options = { parseAs: 'buffer' as const, bodyLimit: LIMIT_MB * 1024 * 1024 };
    scope.addContentTypeParser(Object.values(types), options, async (_request: unknown, body: Buffer) => body);
    scope.setErrorHandler((error) => {
      const { code } = error as { code?: string };
      throw code === 'FST_ERR_CTP_BODY_TOO_LARGE' ? new AppError('photo/too-large', { limitMb: LIMIT_MB }) : error;
    });
    scope.post(
      '/api/photos',
      {
        bodyLimit: options.bodyLimit,
        schema: {
          tags,
          description: `A JPEG, PNG or WebP of up to ${LIMIT_MB} MB. Place, time and device written into it are not kept.`,
          consumes: Object.values(types),
          body: fileBody,
          response: { 201: photoSchema, 200: photoSchema, ...problems },
        },
      },
      async (request, reply) => {
        if (!Buffer.isBuffer(request.body)) throw new AppError('photo/not-a-photo');
        const { name, created } = await photos.save(request.body, goneSignal(reply));
        return reply.code(created ? 201 : 200).send({ photo: name });
      },
    );
  });

  app.get(
    '/api/photos/:name',
    {
      schema: {
        tags,
        params: z.strictObject({ name: photoNameSchema }),
        response: { 200: fileOf(...Object.values(types)), ...problems },
      },
    },
    async ({ params: { name } }, reply) =>
      reply
        .type(types[name.slice(name.lastIndexOf('.') + 1)] ?? '')
        .header('cache-control', `private, max-age=${YEAR_S}, immutable`)
        .send(photos.read(name)),
  );
}
