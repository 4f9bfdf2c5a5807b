/** The published JSON Schema of a burn record: of the input form, in which fields with a default may be left out. */
import { z } from 'zod';
import { burnRecordSchema } from './burn-record.ts';

export function burnRecordJsonSchema(): object {
  return z.toJSONSchema(burnRecordSchema, { io: 'input' });
}
