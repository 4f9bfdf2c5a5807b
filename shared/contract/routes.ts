/**
 * The routes of the service, by method and path under /api: those that the page requests, with body, query and answer,
 * and all others. The page takes its types from here; a test compares the routes of the service with both tables, so
 * that each is in one of them.
 */
import { z } from 'zod';
import { backupSchema } from './backups.ts';
import { benchSchema, nameBenchSchema } from './bench.ts';
import { beginBoardCheckSchema, boardCheckAnswerSchema, boardCheckSchema, testProbeSchema } from './board-check.ts';
import {
  attachBoardSchema,
  boardPreviewSchema,
  boardSchema,
  channelPlacementSchema,
  portsSchema,
  previewBoardSchema,
  setupChannelSchema,
} from './boards.ts';
import { editSchema, exclusionSchema } from './burn-record.ts';
import { burnDetailSchema, burnPageSchema, createBurnSchema, editBurnSchema } from './burns.ts';
import { by } from './by.ts';
import { offeredClockSchema, serviceClockSchema } from './clock.ts';
import { comparisonSchema, costSchema, driftSchema, pricesSchema } from './comparison.ts';
import { createMarkSchema, versionedExclusionSchema, versionedMarkSchema, weighUpSchema } from './entries.ts';
import { flashBoardSchema, flashingSchema } from './flashing.ts';
import { handProbeSchema, placeHandProbeSchema } from './hand-probes.ts';
import { healthSchema } from './health.ts';
import { correctImportSchema, importOutcomeSchema, importPreviewSchema, saveImportSchema } from './imports.ts';
import { changed, inventory, stated, stored } from './inventory.ts';
import { markSchema } from './marks.ts';
import { nextTestSchema } from './next-test.ts';
import { pairDeviceSchema, pairedDeviceSchema, pairingCodeSchema, pairingSchema } from './pairing.ts';
import { photoSchema } from './photos.ts';
import { beginPracticeSchema, practiceSchema } from './practice.ts';
import { loadSchema, predictionSchema } from './prediction.ts';
import { publicationSchema, publishSchema } from './publication.ts';
import {
  burnsQuery,
  comparisonQuery,
  importQuery,
  levelQuery,
  methodQuery,
  nextTestQuery,
  seriesQuery,
  takeBackQuery,
} from './queries.ts';
import { analysisSchema } from './results.ts';
import { samplesSchema } from './samples.ts';
import { seriesSchema } from './series.ts';

const burnIds = z.array(z.uuid()).min(1).max(200);
const expectedVersion = z.int().positive();

/** Routes that the page requests. `file`: the body is the bytes of a file. */
export const routes = {
  'GET /health': { summary: 'How the service is, and which version', answer: healthSchema },
  'POST /clock': {
    summary: 'Offer the time, to a machine that has no clock',
    body: offeredClockSchema,
    answer: serviceClockSchema,
  },
  'GET /bench': { summary: 'Who this bench is among others', answer: benchSchema },
  'PUT /bench': { summary: 'Name this bench', body: nameBenchSchema, answer: benchSchema },
  'GET /dataset': { summary: 'How far publishing is', answer: publicationSchema },
  'POST /dataset': { summary: 'Publish the finished burns', body: publishSchema, answer: publicationSchema },
  'POST /backups': { summary: 'Make a backup, and prove it', answer: backupSchema },
  'DELETE /work/:id': { summary: 'Cancel long work' },
  'GET /samples': { summary: 'Whether the sample burns are here', answer: samplesSchema },
  'POST /samples': { summary: 'Add the sample burns', answer: samplesSchema },
  'DELETE /samples': { summary: 'Remove the sample burns' },
  'POST /simulated-board': { summary: 'Plug in a simulated board', answer: boardSchema },
  'DELETE /simulated-board': { summary: 'Take the simulated board away' },
  'GET /practice': { summary: 'How fast time runs for a practice, and what its scales show', answer: practiceSchema },
  'POST /practice': {
    summary: 'Begin a burn on a simulated stove, for practice',
    body: beginPracticeSchema,
    answer: practiceSchema,
  },

  'GET /pairing': { summary: 'How this device stands, and which devices are paired', answer: pairingSchema },
  'POST /pairing': { summary: 'Pair this device by a code', body: pairDeviceSchema, answer: pairedDeviceSchema },
  'POST /pairing/code': { summary: 'Show a new code for pairing', answer: pairingCodeSchema },
  'DELETE /pairing/code': { summary: 'Withdraw the code for pairing' },
  'DELETE /pairing/devices/:id': { summary: 'Send a paired device away' },

  'GET /ports': { summary: 'The serial ports of the machine', answer: portsSchema },
  'POST /boards': { summary: 'Attach the board on a port', body: attachBoardSchema, answer: boardSchema },
  'POST /boards/preview': {
    summary: 'What a board on a port sends, before it is attached',
    body: previewBoardSchema,
    answer: boardPreviewSchema,
  },
  'POST /boards/:id/blink': { summary: 'Blink the lamp of a board' },
  'DELETE /boards/:id': { summary: 'Detach a board' },
  'PATCH /boards/:id/channels/:channelId': {
    summary: 'Say where a probe sits and how it is calibrated',
    body: channelPlacementSchema,
    answer: setupChannelSchema,
  },
  'GET /board-check': { summary: 'The check of a board that runs, or the last one', answer: boardCheckAnswerSchema },
  'POST /board-check': {
    summary: 'Begin to check the board on a port',
    body: beginBoardCheckSchema,
    answer: boardCheckSchema,
  },
  'POST /board-check/test': {
    summary: 'Begin or end a test of one probe',
    body: testProbeSchema,
    answer: boardCheckSchema,
  },
  'DELETE /board-check': { summary: 'End the check and give the port back', answer: boardCheckAnswerSchema },
  'GET /flashing': { summary: 'How far the firmware is written', answer: flashingSchema },
  'POST /flashing': { summary: 'Write the firmware onto a board', body: flashBoardSchema, answer: flashingSchema },
  'POST /hand-probes': {
    summary: 'Add a probe that is read by hand',
    body: placeHandProbeSchema,
    answer: handProbeSchema,
  },
  'DELETE /hand-probes/:id': { summary: 'Remove a probe that is read by hand' },

  'GET /stoves': { summary: 'All stoves', answer: z.strictObject({ stoves: z.array(stored(inventory.stoves)) }) },
  'POST /stoves': { summary: 'Add a stove', body: stated(inventory.stoves), answer: stored(inventory.stoves) },
  'PUT /stoves/:id': { summary: 'Change a stove', body: changed(inventory.stoves), answer: stored(inventory.stoves) },
  'GET /revisions': {
    summary: 'All revisions',
    answer: z.strictObject({ revisions: z.array(stored(inventory.revisions)) }),
  },
  'POST /revisions': {
    summary: 'Add a revision',
    body: stated(inventory.revisions),
    answer: stored(inventory.revisions),
  },
  'PUT /revisions/:id': {
    summary: 'Change a revision',
    body: changed(inventory.revisions),
    answer: stored(inventory.revisions),
  },
  'GET /vessels': { summary: 'All vessels', answer: z.strictObject({ vessels: z.array(stored(inventory.vessels)) }) },
  'POST /vessels': { summary: 'Add a vessel', body: stated(inventory.vessels), answer: stored(inventory.vessels) },
  'PUT /vessels/:id': {
    summary: 'Change a vessel',
    body: changed(inventory.vessels),
    answer: stored(inventory.vessels),
  },
  'GET /fuel-lots': {
    summary: 'All fuel lots',
    answer: z.strictObject({ fuelLots: z.array(stored(inventory.fuelLots)) }),
  },
  'POST /fuel-lots': {
    summary: 'Add a fuel lot',
    body: stated(inventory.fuelLots),
    answer: stored(inventory.fuelLots),
  },
  'PUT /fuel-lots/:id': {
    summary: 'Change a fuel lot',
    body: changed(inventory.fuelLots),
    answer: stored(inventory.fuelLots),
  },
  'GET /places': { summary: 'All places', answer: z.strictObject({ places: z.array(stored(inventory.places)) }) },
  'POST /places': { summary: 'Add a place', body: stated(inventory.places), answer: stored(inventory.places) },
  'PUT /places/:id': { summary: 'Change a place', body: changed(inventory.places), answer: stored(inventory.places) },
  'GET /scales': { summary: 'All scales', answer: z.strictObject({ scales: z.array(stored(inventory.scales)) }) },
  'POST /scales': { summary: 'Add a scale', body: stated(inventory.scales), answer: stored(inventory.scales) },
  'PUT /scales/:id': { summary: 'Change a scale', body: changed(inventory.scales), answer: stored(inventory.scales) },

  'GET /burns': {
    summary: 'All burns, newest first; in pages and with curves and figures where asked',
    query: burnsQuery,
    answer: burnPageSchema,
  },
  'POST /burns': {
    summary: 'Describe a new burn, and start it if asked',
    body: createBurnSchema.extend({ by }),
    answer: burnDetailSchema,
  },
  'GET /burns/:id': { summary: 'One burn with its marks and weighings', answer: burnDetailSchema },
  'PATCH /burns/:id': {
    summary: 'Change the description or the status of a burn',
    body: editBurnSchema,
    answer: burnDetailSchema,
  },
  'DELETE /burns/:id': { summary: 'Remove a burn' },
  'GET /burns/:id/series': {
    summary: 'Curves of a burn, thinned for a screen',
    query: seriesQuery,
    answer: seriesSchema,
  },
  'GET /burns/:id/results': { summary: 'Results of a burn', query: methodQuery, answer: analysisSchema },
  'GET /burns/:id/edits': {
    summary: 'What was changed in a burn',
    answer: z.strictObject({ edits: z.array(editSchema) }),
  },
  'POST /burns/:id/marks': { summary: 'Make a mark', body: createMarkSchema, answer: versionedMarkSchema },
  'PUT /burns/:id/marks/:entryId': {
    summary: 'Correct a mark',
    body: z.strictObject({ mark: markSchema, expectedVersion, by }),
    answer: versionedMarkSchema,
  },
  'DELETE /burns/:id/marks/:entryId': {
    summary: 'Take a mark back',
    query: takeBackQuery,
    answer: versionedMarkSchema,
  },
  'POST /burns/:id/exclusions': {
    summary: 'Leave out a stretch of a probe',
    body: exclusionSchema.extend({ id: z.uuid().optional(), by }),
    answer: versionedExclusionSchema,
  },
  'PUT /burns/:id/exclusions/:entryId': {
    summary: 'Correct a stretch that is left out',
    body: z.strictObject({ exclusion: exclusionSchema, expectedVersion, by }),
    answer: versionedExclusionSchema,
  },
  'DELETE /burns/:id/exclusions/:entryId': {
    summary: 'Let a stretch count again',
    query: takeBackQuery,
    answer: versionedExclusionSchema,
  },
  'POST /burns/:id/weigh-up': {
    summary: 'Save everything that was weighed after a burn, or none of it',
    body: weighUpSchema,
    answer: burnDetailSchema,
  },
  'POST /photos': { summary: 'Save a photo', file: true, answer: photoSchema },

  'GET /comparison': {
    summary: 'Burns of one revision against those of another',
    query: comparisonQuery,
    answer: comparisonSchema,
  },
  'GET /next-test': {
    summary: 'What the next test of an idea would take',
    query: nextTestQuery,
    answer: nextTestSchema,
  },
  'GET /level': {
    summary: 'One result over time',
    query: levelQuery,
    answer: z.strictObject({ level: driftSchema.optional() }),
  },
  'POST /predictions': {
    summary: 'Predict another load from burns of a revision',
    body: z.strictObject({ burns: burnIds, load: loadSchema }),
    answer: predictionSchema,
  },
  'POST /costs': {
    summary: 'What a batch costs',
    body: z.strictObject({ burns: burnIds, prices: pricesSchema }),
    answer: z.strictObject({ cost: costSchema.optional() }),
  },

  'POST /imports': {
    summary: 'Hand over a file to be looked at',
    file: true,
    query: importQuery,
    answer: importPreviewSchema,
  },
  'POST /imports/:id/preview': {
    summary: 'Read a file again in another way',
    body: correctImportSchema,
    answer: importPreviewSchema,
  },
  'POST /imports/:id/keep': {
    summary: 'Import what a file holds',
    body: saveImportSchema,
    answer: importOutcomeSchema,
  },
  'DELETE /imports/:id': { summary: 'Forget a file that was handed over' },
} satisfies Record<RouteName, Described & { file?: true; body?: z.ZodType; query?: z.ZodObject; answer?: z.ZodType }>;

/**
 * All other routes: files and the live stream, which the browser fetches by address, and those that commands and
 * programs request.
 */
export const otherRoutes = {
  'GET /stream': { summary: 'What happens, as it happens' },
  'GET /work': { summary: 'The long work that is under way, and how far' },
  'GET /schemas/burn-record.json': { summary: 'The JSON Schema of a burn record' },
  'GET /boards': { summary: 'All boards with their probes' },
  'GET /hand-probes': { summary: 'All probes that are read by hand' },
  'GET /stoves/:id': { summary: 'One stove' },
  'GET /stoves/:id/history': { summary: 'All versions of a stove' },
  'GET /revisions/:id': { summary: 'One revision' },
  'GET /revisions/:id/history': { summary: 'All versions of a revision' },
  'GET /vessels/:id': { summary: 'One vessel' },
  'GET /vessels/:id/history': { summary: 'All versions of a vessel' },
  'GET /fuel-lots/:id': { summary: 'One fuel lot' },
  'GET /fuel-lots/:id/history': { summary: 'All versions of a fuel lot' },
  'GET /places/:id': { summary: 'One place' },
  'GET /places/:id/history': { summary: 'All versions of a place' },
  'GET /scales/:id': { summary: 'One scale' },
  'GET /scales/:id/history': { summary: 'All versions of a scale' },
  'GET /revisions/:id/design': { summary: 'Figures of the design of a revision' },
  'POST /burns/:id/weighings': { summary: 'Save a weighing' },
  'PUT /burns/:id/weighings/:entryId': { summary: 'Correct a weighing' },
  'DELETE /burns/:id/weighings/:entryId': { summary: 'Take a weighing back' },
  'GET /photos/:name': { summary: 'A photo' },
  'GET /package.zip': { summary: 'Several burns as a Data Package' },
  'GET /burns/:id/package.zip': { summary: 'A burn as a Data Package' },
  'GET /burns/:id/record': { summary: 'The record of a burn' },
  'GET /burns/:id/burn.xlsx': { summary: 'A burn as a workbook' },
  'GET /burns/:id/readings.csv': { summary: 'Readings of a burn as CSV' },
  'GET /burns/:id/readings.parquet': { summary: 'Readings of a burn as Parquet' },
  'GET /burns/:id/results.csv': { summary: 'Results of a burn as CSV' },
  'GET /burns/:id/marks.csv': { summary: 'Marks of a burn as CSV' },
  'GET /burns/:id/weighings.csv': { summary: 'Weighings of a burn as CSV' },
  'GET /burns/:id/report.pdf': { summary: 'Report of a burn as PDF' },
  'GET /burns/:id/report.html': { summary: 'Report of a burn as HTML' },
  'GET /burns/:id/curves.svg': { summary: 'Curves of a burn as a picture' },
  'GET /comparison/report.pdf': { summary: 'Report of a comparison as PDF' },
  'GET /comparison/report.html': { summary: 'Report of a comparison as HTML' },
  'GET /next-test/card.pdf': { summary: 'Card of the next test as PDF' },
  'GET /next-test/card.html': { summary: 'Card of the next test as HTML' },
} satisfies Record<RouteName, Described>;

type RouteName = `${'GET' | 'POST' | 'PUT' | 'PATCH' | 'DELETE'} /${string}`;
interface Described {
  /** The summary in the OpenAPI document. */
  readonly summary: string;
}

export type Route = keyof typeof routes;
export type OtherRoute = keyof typeof otherRoutes;
/** The body as sent: fields that the service fills in may be left out. */
export type BodyOf<R extends Route> = R extends Route
  ? (typeof routes)[R] extends { body: infer S extends z.ZodType }
    ? z.input<S>
    : undefined
  : never;
/** The query as sent: text; the sender formats numbers. */
export type QueryOf<R extends Route> = R extends Route
  ? (typeof routes)[R] extends { query: infer S extends z.ZodObject }
    ? { readonly [K in keyof z.input<S>]: Written<z.input<S>[K], NonNullable<z.output<S>[K & keyof z.output<S>]>> }
    : undefined
  : never;
type Written<Text, Read> = [Read] extends [number] ? number | Extract<Text, undefined> : Text;
export type AnswerOf<R extends Route> = R extends Route
  ? (typeof routes)[R] extends { answer: infer S extends z.ZodType }
    ? z.output<S>
    : undefined
  : never;

/** Names of the parameters of a path, which follow a colon. */
type NamesIn<Path extends string> = Path extends `${string}:${infer Name}/${infer Rest}`
  ? Name | NamesIn<Rest>
  : Path extends `${string}:${infer Name}`
    ? Name
    : never;
export type ParamsOf<R extends Route | OtherRoute> = Readonly<Record<NamesIn<R>, string>>;
