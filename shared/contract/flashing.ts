/** Schemas for writing the firmware to a board. */
import { z } from 'zod';
import { boardSchema } from './boards.ts';
import { messageSchema } from './results.ts';

/** Ready-made hex files, by the probes that the board has. */
export const firmwareNames = ['bench-board-14', 'bench-board-19', 'bench-board-mixed'] as const;
export type FirmwareName = (typeof firmwareNames)[number];

export const flashBoardSchema = z.strictObject({
  path: z.string().min(1).max(512),
  firmware: z.enum(firmwareNames).default('bench-board-14'),
});

export const flashingSchema = z.strictObject({
  phase: z.enum(['idle', 'connecting', 'writing', 'checking', 'starting', 'done', 'failed']),
  doneBytes: z.int().nonnegative(),
  totalBytes: z.int().nonnegative(),
  path: z.string().optional(),
  firmware: z.enum(firmwareNames).optional(),
  board: boardSchema.optional().describe('the board as it came live, once done'),
  problem: messageSchema.optional().describe('why it failed'),
  mayFlash: z.boolean().describe('whether whoever asks may put firmware on a board: on the bench machine only'),
});
export type Flashing = z.infer<typeof flashingSchema>;
