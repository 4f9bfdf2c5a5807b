/**
 * What the page asks of the service, by method and path under /api: body, query and answer. The page takes its types from here,
 * and a test holds the routes of the service to these schemas.
 */
import { z } from 'zod';
import { backupSchema } from './backups.ts';
import {
  attachBoardSchema,
  boardPreviewSchema,
  boardSchema,
  channelPlacementSchema,
  portsSchema,
  previewBoardSchema,
  setupChannelSchema,
} from './boards.ts';
import { editSchema } from './burn-record.ts';
import { burnDetailSchema, burnSummarySchema, createBurnSchema, editBurnSchema } from './burns.ts';
import { offeredClockSchema, serviceClockSchema } from './clock.ts';
import { comparisonSchema, costSchema, driftSchema, pricesSchema } from './comparison.ts';
import { flashBoardSchema, flashingSchema } from './flashing.ts';
import { handProbeSchema, placeHandProbeSchema } from './hand-probes.ts';
import { healthSchema } from './health.ts';
import { correctImportSchema, importOutcomeSchema, importPreviewSchema, saveImportSchema } from './imports.ts';
import { nextTestSchema } from './next-test.ts';
import { pairDeviceSchema, pairedDeviceSchema, pairingCodeSchema, pairingSchema } from './pairing.ts';
import { loadSchema, predictionSchema } from './prediction.ts';
import { analysisSchema } from './results.ts';
import { samplesSchema } from './samples.ts';
import { seriesSchema } from './series.ts';

const burnIds = z.array(z.uuid()).min(1).max(200);
const by = z.string().trim().min(1).max(120).optional();

export const routes = {
  'GET /health': { answer: healthSchema },
  'POST /clock': { body: offeredClockSchema, answer: serviceClockSchema },
  'POST /backups': { answer: backupSchema },
  'GET /samples': { answer: samplesSchema },
  'POST /samples': { answer: samplesSchema },
  'DELETE /samples': {},
  'POST /simulated-board': { answer: boardSchema },
  'DELETE /simulated-board': {},

  'GET /pairing': { answer: pairingSchema },
  'POST /pairing': { body: pairDeviceSchema, answer: pairedDeviceSchema },
  'POST /pairing/code': { answer: pairingCodeSchema },
  'DELETE /pairing/code': {},
  'DELETE /pairing/devices/:id': {},

  'GET /ports': { answer: portsSchema },
  'POST /boards': { body: attachBoardSchema, answer: boardSchema },
  'POST /boards/preview': { body: previewBoardSchema, answer: boardPreviewSchema },
  'POST /boards/:id/blink': {},
  'DELETE /boards/:id': {},
  'PATCH /boards/:id/channels/:channelId': { body: channelPlacementSchema, answer: setupChannelSchema },
  'GET /flashing': { answer: flashingSchema },
  'POST /flashing': { body: flashBoardSchema, answer: flashingSchema },
  'POST /hand-probes': { body: placeHandProbeSchema, answer: handProbeSchema },
  'DELETE /hand-probes/:id': {},

  'GET /burns': { answer: z.strictObject({ burns: z.array(burnSummarySchema) }) },
  'POST /burns': { body: createBurnSchema.extend({ by }), answer: burnDetailSchema },
  'GET /burns/:id': { answer: burnDetailSchema },
  'PATCH /burns/:id': { body: editBurnSchema, answer: burnDetailSchema },
  'DELETE /burns/:id': {},
  'GET /burns/:id/series': { answer: seriesSchema },
  'GET /burns/:id/results': { answer: analysisSchema },
  'GET /burns/:id/edits': { answer: z.strictObject({ edits: z.array(editSchema) }) },

  'GET /comparison': { answer: comparisonSchema },
  'GET /next-test': { answer: nextTestSchema },
  'GET /level': { answer: z.strictObject({ level: driftSchema.optional() }) },
  'POST /predictions': { body: z.strictObject({ burns: burnIds, load: loadSchema }), answer: predictionSchema },
  'POST /costs': {
    body: z.strictObject({ burns: burnIds, prices: pricesSchema }),
    answer: z.strictObject({ cost: costSchema.optional() }),
  },

  'POST /imports/:id/preview': { body: correctImportSchema, answer: importPreviewSchema },
  'POST /imports/:id/keep': { body: saveImportSchema, answer: importOutcomeSchema },
  'DELETE /imports/:id': {},
} satisfies Record<
  `${'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE'} /${string}`,
  { body?: z.ZodType; answer?: z.ZodType }
>;

export type Route = keyof typeof routes;
/** As it is sent: what the service fills in by itself may be left out. */
export type BodyOf<R extends Route> = R extends Route
  ? (typeof routes)[R] extends { body: infer S extends z.ZodType }
    ? z.input<S>
    : undefined
  : never;
export type AnswerOf<R extends Route> = R extends Route
  ? (typeof routes)[R] extends { answer: infer S extends z.ZodType }
    ? z.output<S>
    : undefined
  : never;

/** Names that stand in a path behind a colon. */
type NamesIn<Path extends string> = Path extends `${string}:${infer Name}/${infer Rest}`
  ? Name | NamesIn<Rest>
  : Path extends `${string}:${infer Name}`
    ? Name
    : never;
export type ParamsOf<R extends Route> = Readonly<Record<NamesIn<R>, string>>;
