/**
 * Schemas of pairing a phone on the same network: the list of devices, the code, and the device that makes the request.
 */
import { z } from 'zod';

const id = z.uuid();

export const pairedDeviceSchema = z.strictObject({
  id,
  name: z.string().optional(),
  pairedUtcMs: z.int(),
  lastSeenUtcMs: z.int(),
});
export type PairedDevice = z.infer<typeof pairedDeviceSchema>;

export const pairDeviceSchema = z.strictObject({
  code: z.string().describe('the digits shown on the bench machine; blanks between them do not matter'),
  name: z.string().trim().min(1).max(60).optional(),
});

export const pairingCodeSchema = z.strictObject({ code: z.string(), leftS: z.number() });
export type PairingCode = z.infer<typeof pairingCodeSchema>;

export const pairingSchema = z.strictObject({
  you: z
    .enum(['bench', 'paired', 'stranger'])
    .describe('bench: a browser on the machine itself, which needs no pairing'),
  network: z
    .strictObject({
      secure: z.boolean(),
      addresses: z.array(z.string()).describe('to open on the phone'),
    })
    .optional()
    .describe('missing when the service answers on this machine only'),
  code: pairingCodeSchema.optional().describe('for the bench only: the code that is good now'),
  devices: z.array(pairedDeviceSchema).optional().describe('for the bench only'),
});
export type Pairing = z.infer<typeof pairingSchema>;
