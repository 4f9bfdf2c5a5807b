import { cpSync } from 'node:fs';
import { onTestFinished } from 'vitest';
import { ensurePageBuilt } from '../../scripts/build/page.ts';
import { buildApp } from '../../server/app.ts';
import { createRealClock } from '../../server/base/clock.ts';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import type { Network } from '../../server/network/network.ts';
import { saveRecord } from '../../server/records/save-record.ts';
import { createBoardOnCable } from '../../server/simulator/board-on-cable.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { openPseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import type { Board } from '../../shared/contract/boards.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import { repositoryRoot, temporaryFolder } from '../support/temporary-folder.ts';

/** Interval of readings, s, that gives the same curves in a tenth of the time. */
const SCAN_EVERY_S = 10;

export interface BenchWithPage {
  readonly url: string;
  readonly port: number;
  /** Folder of its data. */
  readonly folder: string;
  /** Sends a request to the service itself; throws when it is refused. */
  ask<T>(method: string, path: string, body?: unknown): Promise<T>;
  /** Stops the service like a power cut, as seen from the page, and starts it again on the same data and port. */
  stop(): Promise<void>;
  start(): Promise<void>;
  /** Advances the clock of the service at once, as in a sleep of the machine. */
  leap(seconds: number): void;
}

/** Building the page takes a while: once in each process of the tests. */
let built: Promise<void> | undefined;

/**
 * Starts the whole service with a port and data for this test, serving the page; its clock runs `timeScale` times as
 * fast.
 */
export async function benchWithPage({
  timeScale = 1,
  network,
  machineUtcMs,
  pageFolder = `${repositoryRoot}/dist/web`,
  startsWith,
  endsWith = onTestFinished,
}: {
  timeScale?: number;
  /** Time of the machine's own clock, where it differs from this machine's. */
  machineUtcMs?: number;
  network?: Network;
  pageFolder?: string;
  /** A folder whose data are copied to this bench at its start. */
  startsWith?: string;
  /** Registers the clean-up of the bench: at the end of the test, or of the file. */
  endsWith?: (end: () => void | Promise<void>) => void;
} = {}): Promise<BenchWithPage> {
  built ??= ensurePageBuilt(() => undefined);
  await built;
  const folder = temporaryFolder({}, endsWith);
  if (startsWith) cpSync(startsWith, folder, { recursive: true });
  const clock = createRealClock(timeScale);
  let leaptS = 0;
  const open = () =>
    buildApp({
      folder,
      pageFolder,
      clock: {
        ...clock,
        get scale() {
          return clock.scale;
        },
        monotonicUs: () => clock.monotonicUs() + leaptS * 1e6,
        wallMs: () => machineUtcMs ?? clock.wallMs() + leaptS * 1e3,
      },
      ports: serialPortFactory,
      ...(network && { network }),
    });
  let service = await open();
  service.resume();
  await service.app.listen({ host: '127.0.0.1', port: 0 });
  const { port } = service.app.server.address() as { port: number };
  endsWith(async () => {
    await service.app.close();
  });
  const bench: BenchWithPage = {
    url: `http://127.0.0.1:${port}/`,
    port,
    folder,
    async ask(method, path, body) {
      const response = await fetch(`http://127.0.0.1:${port}/api${path}`, {
        method,
        ...(body !== undefined && { headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
      });
      const text = await response.text();
      if (!response.ok) throw new Error(`${method} ${path}: ${response.status} ${text}`);
      return text === '' ? undefined : JSON.parse(text);
    },
    stop: () => service.app.close(),
    async start() {
      service = await open();
      service.resume();
      await service.app.listen({ host: '127.0.0.1', port });
    },
    leap(seconds) {
      leaptS += seconds;
    },
  };
  stores.set(bench, () => service.store);
  return bench;
}

const stores = new WeakMap<BenchWithPage, () => Awaited<ReturnType<typeof buildApp>>['store']>();

/** Makes the disk refuse scans, like a full one, until the returned function is called. */
export function fillDisk(bench: BenchWithPage): () => void {
  const scans = stores.get(bench)?.().scans;
  if (!scans) throw new Error('this bench was not made by benchWithPage');
  const { append } = scans;
  scans.append = () => {
    throw Object.assign(new Error('database or disk is full'), { code: 'SQLITE_FULL' });
  };
  return () => {
    scans.append = append;
  };
}

/**
 * Imports finished burns of the invented Heron, by their index in its list, as whole records.
 * @param spoil changes the records before the import
 */
export async function saveHeronBurns(
  bench: BenchWithPage,
  indices: readonly number[],
  spoil: (record: BurnRecord) => BurnRecord = (record) => record,
): Promise<BurnRecord[]> {
  const store = stores.get(bench)?.();
  if (!store) throw new Error('this bench was not made by benchWithPage');
  const records: BurnRecord[] = [];
  for (const index of indices) {
    const burn = heronBurns()[index];
    if (!burn) throw new Error(`the Heron has no burn ${index}`);
    const scenario = { ...burn.scenario, timing: { ...burn.scenario.timing, readingEveryS: SCAN_EVERY_S } };
    const record = spoil(toBurnRecord(simulateBurn(scenario, burn.seed, burn.errors), burn.description));
    await saveRecord(store, record);
    records.push(record);
  }
  return records;
}

const prepared = new Map<string, Promise<{ folder: string; records: BurnRecord[] }>>();

/** Makes data with burns of the Heron and their results, once in each process of the tests. */
async function prepareHeron(indices: readonly number[]) {
  const folder = temporaryFolder({}, (end) => process.once('exit', end));
  const ends: (() => void | Promise<void>)[] = [];
  const bench = await benchWithPage({ endsWith: (end) => ends.unshift(end) });
  const records = await saveHeronBurns(bench, indices);
  for (const { id } of records) await bench.ask('GET', `/burns/${id}/results`);
  await bench.stop();
  cpSync(bench.folder, folder, { recursive: true });
  for (const end of ends) await end();
  return { folder, records };
}

/** Starts a bench with finished burns of the invented Heron and their results, by their index in its list. */
export async function benchWithHeron(indices: readonly number[], options: Parameters<typeof benchWithPage>[0] = {}) {
  const key = indices.join();
  if (!prepared.has(key)) prepared.set(key, prepareHeron(indices));
  const { folder, records } = await prepared.get(key)!;
  return { bench: await benchWithPage({ ...options, startsWith: folder }), records: structuredClone(records) };
}

/**
 * Plugs in a simulated board on a real pseudo-terminal, attached and live; its simulated person lights and feeds
 * without marks.
 */
export async function plugInSimulatedBoard(
  bench: BenchWithPage,
  timeScale: number,
  options?: { waterStartC?: number },
): Promise<Board> {
  return (await plugInBoardWithSwitch(bench, timeScale, options)).board;
}

/** The same with its switch under the control of the test. */
export async function plugInBoardWithSwitch(
  bench: BenchWithPage,
  timeScale: number,
  { waterStartC }: { waterStartC?: number } = {},
) {
  const terminal = await openPseudoTerminal();
  if (!terminal.available) throw new Error(terminal.reason);
  const burn = heronBurns()[4];
  if (!burn) throw new Error('the Heron has no fifth burn');
  const { load, timing } = burn.scenario;
  const simulated = createBoardOnCable({
    scenario: {
      ...burn.scenario,
      load: { ...load, startTempC: waterStartC ?? load.startTempC },
      timing: { ...timing, readingEveryS: 5 },
    },
    seed: burn.seed,
    clock: createRealClock(timeScale),
    settings: { identity: burn.description.boardId },
  });
  simulated.plugInto(terminal);
  onTestFinished(() => simulated.switchOff());
  simulated.board.switchOn();
  const board = await bench.ask<Board>('POST', '/boards', { path: terminal.path });
  return { board, switchOff: () => simulated.switchOff() };
}

/** Creates the inventory for the burns of a test; returns the id by kind. */
export async function fillInventory(
  bench: BenchWithPage,
): Promise<Record<'revision' | 'vessel' | 'place' | 'wood' | 'scale', string>> {
  const made = async (path: string, thing: object) => (await bench.ask<{ id: string }>('POST', path, thing)).id;
  const stoveId = await made('/stoves', { name: 'Heron' });
  return {
    revision: await made('/revisions', { stoveId, label: '2', change: 'Riser inside an insulated sleeve.' }),
    vessel: await made('/vessels', { name: '30-litre vat', massKg: 3.2, innerDiameterM: 0.36 }),
    place: await made('/places', { name: 'Dye yard', stationPressurePa: 98_500 }),
    wood: await made('/fuel-lots', {
      name: 'Beech, split',
      kind: 'wood',
      moisture: { fraction: 0.16, basis: 'wet', how: 'ovenDry' },
    }),
    scale: await made('/scales', { name: 'Yard scale', standardUncertaintyKg: 0.005 }),
  };
}

/** Starts a burn that records: to the boil, with a hold of 45 min. */
export async function startBurn(bench: BenchWithPage, more: object = {}): Promise<BurnDetail> {
  const inventory = await fillInventory(bench);
  return bench.ask<BurnDetail>('POST', '/burns', {
    title: 'Heron 2, live',
    status: 'running',
    revisionId: inventory.revision,
    vesselId: inventory.vessel,
    placeId: inventory.place,
    fuelLotIds: [inventory.wood],
    scaleIds: [inventory.scale],
    target: { kind: 'boil' },
    hold: { durationS: 2700, onDrop: 'pause' },
    zone: 'Europe/Paris',
    ...more,
  });
}

/** Starts a lit burn that a simulated board records on a fast clock; returns it with a function for its marks. */
export async function litBurn(timeScale: number) {
  const bench = await benchWithPage({ timeScale });
  await plugInSimulatedBoard(bench, timeScale);
  const { burn } = await startBurn(bench);
  await bench.ask('POST', `/burns/${burn.id}/marks`, { kind: 'lit' });
  const marks = async () => (await bench.ask<BurnDetail>('GET', `/burns/${burn.id}`)).marks.map(({ mark }) => mark);
  return { bench, burn, marks };
}
