/** Small schemas that several routes share. */
import { z } from 'zod';
import { problemSchema } from '../../shared/contract/problem.ts';

export const id = z.uuid();
export const idParam = z.strictObject({ id });

/** Every route may refuse with this. */
export const problems = { '4xx': problemSchema, '5xx': problemSchema } as const;

/** An answer that is a file as it is, of one of these media types. */
export function fileOf(...mediaTypes: string[]) {
  // What is text says so; of other bytes a schema can say nothing.
  const schemaOf = (type: string) => (type.startsWith('text/') ? z.string() : z.any());
  const content = mediaTypes.map((type) => [type.replace(/;.*/, ''), { schema: schemaOf(type) }] as const);
  return { description: 'The file', content: Object.fromEntries(content) };
}

/** A body that is a file as it is; its media types stand beside it, as `consumes`. */
export const fileBody = z.any().describe('the file as it is');
