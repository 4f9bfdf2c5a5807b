import type {
  FastifyBaseLogger,
  FastifyInstance,
  FastifySchemaCompiler,
  FastifyServerOptions,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import { ZodObject, type ZodType, z } from 'zod';
import { AppError } from '../base/app-error.ts';

/** Fastify with the types of its routes taken from their zod schemas. */
export type App = FastifyInstance<
  RawServerDefault,
  RawRequestDefaultExpression,
  RawReplyDefaultExpression,
  FastifyBaseLogger,
  ZodTypeProvider
>;

/**
 * Parses at the border with zod itself; the error goes to the error handler as it is. The input is reported, to tell
 * "12,5" from a field that is missing.
 */
const parse: FastifySchemaCompiler<ZodType> = ({ schema, httpPart }) => {
  const known = httpPart === 'querystring' && schema instanceof ZodObject ? Object.keys(schema.shape) : undefined;
  return (data: unknown) => {
    const unknown = known && Object.keys(data ?? {}).filter((name) => !known.includes(name));
    if (unknown && unknown.length > 0) {
      const params = { names: unknown.join(', '), known: known.join(', ') };
      return { error: new AppError('request/unknown-query', params) };
    }
    const result = schema.safeParse(data ?? undefined, { reportInput: true });
    return result.success ? { value: result.data } : { error: result.error };
  };
};

/** Answers are written as they are: their schemas describe them in the OpenAPI document and are held to it by tests. */
const write = () => (data: unknown) => JSON.stringify(data);

/** Option of Fastify. Given there and not later, so that it does not load its own compilers, which are a tenth of a start. */
export const zodSchemas: NonNullable<FastifyServerOptions['schemaController']> = {
  // Its types know compilers of JSON Schema only.
  compilersFactory: { buildValidator: () => parse as never, buildSerializer: () => write as never },
};

/** @param app made with `zodSchemas` */
export function useZod(app: FastifyInstance): App {
  // A route that takes nothing behind the question mark says so, instead of passing over what was misspelt.
  app.addHook('onRoute', (route) => {
    if (route.url.startsWith('/api/')) route.schema = { querystring: z.strictObject({}), ...route.schema };
  });
  return app.withTypeProvider<ZodTypeProvider>();
}
