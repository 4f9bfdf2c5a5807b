/** Alarms: conditions that call the person to the stove. */
import { z } from 'zod';
import { faultCodes } from './burn-record.ts';

const id = z.uuid();

const calling = { id, sinceUs: z.int().describe('on the clock of the burn') };
/** A condition that needs the person at the stove. It is active as long as the newest list of its burn contains it. */
export const alarmSchema = z.discriminatedUnion('kind', [
  z.strictObject({ ...calling, kind: z.literal('boardGone'), subject: z.string() }),
  z.strictObject({ ...calling, kind: z.literal('notRecorded'), subject: z.string() }),
  z.strictObject({ ...calling, kind: z.literal('probe'), subject: z.string(), fault: z.enum(faultCodes) }),
  z.strictObject({ ...calling, kind: z.literal('holdLow'), floorTempC: z.number() }),
  z.strictObject({ ...calling, kind: z.literal('holdDone') }),
  z.strictObject({ ...calling, kind: z.literal('target') }),
  z.strictObject({ ...calling, kind: z.literal('needsWood'), sinceS: z.number() }),
  z.strictObject({ ...calling, kind: z.literal('nearlyThere'), leftS: z.number() }),
  z.strictObject({ ...calling, kind: z.literal('readingDue'), sinceS: z.number() }),
]);
export type Alarm = z.infer<typeof alarmSchema>;
export const burnAlarmsSchema = z.strictObject({ burnId: id, calls: z.array(alarmSchema) });
export type BurnAlarms = z.infer<typeof burnAlarmsSchema>;
