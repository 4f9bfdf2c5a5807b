/** Schemas of publishing the finished burns of this bench into a folder, and its progress. */
import { z } from 'zod';
import { messageSchema } from './results.ts';

export const publishSchema = z.strictObject({
  folder: z
    .string()
    .min(1)
    .max(4096)
    .optional()
    .describe('whole path on the machine of the service; only that machine may name one. The last one when left out'),
});

export const publicationSchema = z.strictObject({
  phase: z.enum(['idle', 'publishing', 'done', 'failed']),
  folder: z.string().describe('on the machine of the service: where it goes, or would go'),
  doneFiles: z.int().nonnegative(),
  totalFiles: z.int().nonnegative().describe('to be written or removed; what is as it should be is left alone'),
  burns: z.int().nonnegative().describe('that the folder holds of this bench, once done'),
  unfinished: z.int().nonnegative().describe('that still run, or of which scans are being fetched: left out'),
  elsewhere: z.int().nonnegative().describe('that another bench has published in the same folder: left out'),
  problem: messageSchema.optional().describe('why it failed'),
  mayChoose: z.boolean().describe('whether whoever asks may name the folder: on the bench machine only'),
});
export type Publication = z.infer<typeof publicationSchema>;
