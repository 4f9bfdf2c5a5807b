import type {
  FastifyBaseLogger,
  FastifyInstance,
  FastifySchemaCompiler,
  RawReplyDefaultExpression,
  RawRequestDefaultExpression,
  RawServerDefault,
} from 'fastify';
import type { ZodTypeProvider } from 'fastify-type-provider-zod';
import type { ZodType } from 'zod';

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
const parse: FastifySchemaCompiler<ZodType> =
  ({ schema }) =>
  (data: unknown) => {
    const result = schema.safeParse(data ?? undefined, { reportInput: true });
    return result.success ? { value: result.data } : { error: result.error };
  };

/** Answers are written as they are: their schemas describe them in the OpenAPI document and are held to it by tests. */
export function useZod(app: FastifyInstance): App {
  app.setValidatorCompiler(parse as FastifySchemaCompiler<unknown>);
  app.setSerializerCompiler(() => (data) => JSON.stringify(data));
  return app.withTypeProvider<ZodTypeProvider>();
}
