import { join } from 'node:path';
import Fastify, { type FastifyRequest } from 'fastify';
import packageFile from '../package.json' with { type: 'json' };
import { errorSentence } from '../shared/language/errors/errors.ts';
import { createIdleCheck } from './backup/idle-check.ts';
import { packReadings } from './backup/pack-readings.ts';
import { sealEndedBurns } from './backup/seal-ended.ts';
import { AppError, isAppError } from './base/app-error.ts';
import type { Clock } from './base/clock.ts';
import { newId } from './base/identifiers.ts';
import { terminalLanguage } from './base/start-up.ts';
import { createWallClock } from './base/wall-clock.ts';
import { createBoardChecks } from './board-check/board-check.ts';
import type { PortFactory } from './bridge/port.ts';
import { createBurns } from './burns/burns.ts';
import { createInventory } from './burns/inventory.ts';
import { createDatasetWork } from './dataset/dataset-work.ts';
import { createPublisher } from './dataset/publisher.ts';
import { createFlasher } from './flashing/flashing.ts';
import { benchIdentity } from './identity/bench-identity.ts';
import { createImports } from './imports/imports.ts';
import { createStagedFiles } from './imports/staged-files.ts';
import { createEventStreams } from './live/event-stream.ts';
import { createHub } from './live/hub.ts';
import { createWorkUnderWay } from './live/work-under-way.ts';
import type { Network } from './network/network.ts';
import { createPairing } from './pairing/pairing.ts';
import { createPhotos } from './photos/photos.ts';
import { findBurn } from './records/versioned-documents.ts';
import { createAnalyst } from './results/analyst.ts';
import { prepareCurves } from './results/prepare-curves.ts';
import { createResults } from './results/results.ts';
import { watchAllowedMethods } from './routes/allowed-methods.ts';
import { backupRoutes } from './routes/backups.ts';
import { benchRoutes } from './routes/bench.ts';
import { boardCheckRoutes } from './routes/board-check.ts';
import { boardRoutes } from './routes/boards.ts';
import { burnRoutes } from './routes/burns.ts';
import { clockRoutes } from './routes/clock.ts';
import { comparisonRoutes } from './routes/comparisons.ts';
import { datasetRoutes } from './routes/dataset.ts';
import { limitDevices } from './routes/device-limits.ts';
import { entryRoutes } from './routes/entries.ts';
import { exportRoutes } from './routes/exports.ts';
import { flashingRoutes } from './routes/flashing.ts';
import { guard } from './routes/guard.ts';
import { handProbeRoutes } from './routes/hand-probes.ts';
import { healthRoutes } from './routes/health.ts';
import { importRoutes } from './routes/imports.ts';
import { inventoryRoutes } from './routes/inventory.ts';
import { describeRoutes } from './routes/open-api.ts';
import { pageRoutes } from './routes/page.ts';
import { pairingRoutes } from './routes/pairing.ts';
import { photoRoutes } from './routes/photos.ts';
import { answerError } from './routes/problem.ts';
import { reportRoutes } from './routes/reports.ts';
import { resultRoutes } from './routes/results.ts';
import { simulatedRoutes } from './routes/simulated.ts';
import { streamRoutes } from './routes/stream.ts';
import { type App, useZod, zodSchemas } from './routes/validation.ts';
import { workRoutes } from './routes/work.ts';
import { createBoardOnRequest } from './samples/board-on-request.ts';
import { createPractice } from './samples/practice.ts';
import { portsWithCables } from './simulator/start-board.ts';
import { openStore } from './store/open-store.ts';
import { readable } from './store/sqlite-errors.ts';
import type { Store } from './store/store.ts';
import { benchWorker } from './worker/bench-worker.ts';

export interface AppOptions {
  /** The data folder; only one service may hold it. */
  folder: string;
  /** Folder of the built page. */
  pageFolder: string;
  clock: Clock;
  ports: PortFactory;
  demo?: boolean;
  /** How other machines reach the service; omitted when it is reachable from this machine only. */
  network?: Network;
  /** Plays the alarm sound on the bench machine when the stove needs the person. */
  ring?: () => void;
  /** Scans that may wait in memory while the disk accepts none. */
  mostWaitingScans?: number;
  /** Called with errors that occur outside a request. */
  onTrouble?: (error: unknown) => void;
}

export interface Service {
  app: App;
  store: Store;
  /** Resumes what ran when the service stopped: burns and boards. */
  resume(): void;
}

/** Time for answers in progress when the service closes. */
const CLOSING_GRACE_MS = 2000;

/**
 * Wires the service together: what is registered, and in which order it closes. It does not listen yet.
 * @throws AppError store/... when the data folder cannot be used
 */
export async function buildApp(options: AppOptions): Promise<Service> {
  const { folder } = options;
  const clock = createWallClock(options.clock);
  const onTrouble = options.onTrouble ?? ((error: unknown) => reportTrouble(error, folder));
  const store = openStore(folder, { nowMs: clock.wallMs });
  const hub = createHub(newId(clock.wallMs()));
  const ports = portsWithCables(options.ports);
  const worker = benchWorker();
  const workUnderWay = createWorkUnderWay(hub, () => newId(clock.wallMs()));
  const burns = createBurns({
    store,
    clock,
    hub,
    worker,
    onTrouble,
    ports: ports.factory,
    mostWaitingScans: options.mostWaitingScans,
    ring: options.ring,
    changesOf: (burnId) => idleCheck.changesOf(burnId),
  });
  const idleCheck = createIdleCheck({
    store,
    clock,
    isRecording: () => burns.time.running().length > 0,
    onFound: (burnId) => hub.publish({ type: 'burn', burn: burns.summaries.of(findBurn(store, burnId)) }),
    onTrouble,
  });
  const streams = createEventStreams(hub, burns.snapshot);

  const app = useZod(Fastify({ bodyLimit: 1024 * 1024, return503OnClosing: false, schemaController: zodSchemas }));
  // Only JSON is accepted: a form posted from another site, which browsers send as text, is not even read.
  app.removeContentTypeParser('text/plain');
  let closing = false;
  app.addHook('preClose', async () => {
    closing = true;
    // A connection without any request (browsers open some in advance) would delay closing by a minute.
    setTimeout(() => app.server.closeAllConnections(), CLOSING_GRACE_MS).unref();
  });
  app.addHook('onRequest', async () => {
    if (closing) throw new AppError('request/closing');
  });
  const pairing = createPairing(folder, clock);
  const visitorOf = ({ raw }: FastifyRequest) => pairing.visitor(raw);
  app.setErrorHandler(answerError(folder, (request) => visitorOf(request).kind !== 'stranger'));
  guard(app, options.network?.names ?? new Set(), pairing);
  limitDevices(app, visitorOf);
  const methodsOf = watchAllowedMethods(app);
  const addDocuments = describeRoutes(app, packageFile.version);

  healthRoutes(app, () => ({
    status: 'ok',
    version: packageFile.version,
    epoch: hub.epoch,
    demo: options.demo ?? false,
    timeScale: clock.scale,
    serviceUtcMs: clock.wallMs(),
    clockSource: clock.source(),
    simulatorAvailable: !options.demo,
  }));
  pairingRoutes(app, pairing, options.network);
  benchRoutes(app, folder, clock);
  clockRoutes(app, clock, burns.lifecycle.label);
  const simulatedBoard = createBoardOnRequest({ store, clock, hub, bench: burns.setup, plug: ports.plug });
  const practice = createPractice({ store, clock, hub, burns, board: simulatedBoard });
  simulatedRoutes(app, { store, burns, board: simulatedBoard, practice, demo: options.demo ?? false });
  streamRoutes(app, streams, pairing);
  workRoutes(app, workUnderWay);
  boardRoutes(app, burns.setup, () => burns.bridge.listPorts(), practice.refuseBoards);
  const { setup, bridge } = burns;
  flashingRoutes(app, createFlasher({ store, clock, setup, bridge, ports: ports.factory }), pairing);
  const boardChecks = createBoardChecks({
    store,
    clock,
    hub,
    bridge,
    ports: ports.factory,
    newId: () => newId(clock.wallMs()),
  });
  boardCheckRoutes(app, boardChecks);
  handProbeRoutes(app, burns.setup.handProbes, clock);
  inventoryRoutes(app, createInventory(store, clock), clock);
  burnRoutes(app, burns.lifecycle, burns.summaries);
  entryRoutes(app, { store, clock, ...burns });
  resultRoutes(app, store, burns.results);
  const benchId = () => benchIdentity(folder, clock.wallMs()).id;
  exportRoutes(app, { store, worker, workUnderWay, benchId, version: packageFile.version });
  comparisonRoutes(app, store, worker, workUnderWay, packageFile.version);
  reportRoutes(app, store, worker, workUnderWay, packageFile.version);
  await importRoutes(
    app,
    createImports({
      store,
      clock,
      worker,
      staged: createStagedFiles(join(folder, 'imports'), () => newId(clock.wallMs())),
      zone: Intl.DateTimeFormat().resolvedOptions().timeZone,
      onChanged: burns.announce,
    }),
    workUnderWay,
  );
  await photoRoutes(app, createPhotos(folder, worker));
  // With lower priority: a backup or a publication must not delay a result that is waited for.
  const quietAnalyst = createAnalyst(worker, 'long');
  backupRoutes(app, store, worker, clock, workUnderWay, packageFile.version);
  const publisher = createPublisher({
    store,
    results: createResults(store, quietAnalyst),
    clock,
    work: createDatasetWork(worker),
    workUnderWay,
    version: packageFile.version,
  });
  datasetRoutes(app, publisher, pairing);
  const stopSealing = sealEndedBurns(hub, store, worker, onTrouble);
  const stopPacking = packReadings({ store, clock, onTrouble });
  const stopPreparing = prepareCurves(store, createResults(store, createAnalyst(worker, 'idle')), clock);
  addDocuments();
  await pageRoutes(app, options.pageFolder, methodsOf);

  app.addHook('onClose', async () => {
    await boardChecks.close();
    await practice.close();
    await simulatedBoard.close();
    await burns.close();
    await publisher.close();
    await worker.close();
    await stopSealing();
    await stopPacking();
    await stopPreparing();
    await idleCheck.close();
    store.close();
  });
  return {
    app,
    store,
    resume() {
      practice.restore();
      if (!options.demo) simulatedBoard.restore().catch(onTrouble);
      burns.resume();
    },
  };
}

function reportTrouble(error: unknown, folder: string): void {
  const known = readable(error, folder);
  console.error('stovebench:', isAppError(known) ? errorSentence(terminalLanguage, known.code, known.params) : error);
}
