/**
 * Kills the command that publishes at random moments: no file may be incomplete, no burn published twice, and a last
 * run repairs everything.
 */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { saveRecord } from '../../server/records/save-record.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { openStore } from '../../server/store/open-store.ts';
import { createRandom } from '../../shared/statistics/random.ts';
import type { Table } from '../tools/table.ts';
import { faultsOfFolder } from './published-folder.ts';

const COMMAND = join(import.meta.dirname, '..', '..', 'server', 'command-line', 'stovebench.ts');
const BURNS = 4;
/** Every so many runs one begins with an empty folder, where it has most to write. */
const FRESH_EVERY = 5;

export interface PublishKills {
  tables: Table[];
  losses: string[];
}

export async function publishKills(count: number, seed: number): Promise<PublishKills> {
  const root = mkdtempSync(join(tmpdir(), 'stovebench-publish-kills-'));
  const [data, folder, fresh] = ['data', 'published', 'fresh'].map((name) => join(root, name)) as [
    string,
    string,
    string,
  ];
  const random = createRandom(`publish kills ${seed}`);
  const losses: string[] = [];
  const outcomes = { killed: 0, 'ended before the kill': 0 };
  let halfFiles = 0;
  try {
    await fill(data);
    mkdirSync(folder);
    const wholeMs = await timed(() => run(data, folder));
    const idleMs = await timed(() => run(data, folder));
    while (outcomes.killed < count && outcomes['ended before the kill'] < 3 * count) {
      if (outcomes.killed % FRESH_EVERY === 0) rmSync(folder, { recursive: true, force: true });
      correct(data, random.uniform());
      mkdirSync(folder, { recursive: true });
      // The time before is the start of the program: a run that finds nothing to write takes as long.
      const ended = await run(data, folder, idleMs / 2 + (wholeMs - idleMs / 2) * random.uniform());
      outcomes[ended ? 'ended before the kill' : 'killed']++;
      halfFiles += filesBelow(folder).filter((path) => path.endsWith('.partial')).length;
      losses.push(...(await faultsOfFolder(folder)).map((fault) => `publish, kill ${outcomes.killed}: ${fault}`));
    }
    if (outcomes.killed < count) losses.push(`publish: only ${outcomes.killed} of ${count} kills came in time`);
    await run(data, folder);
    mkdirSync(fresh);
    await run(data, fresh);
    if (contentOf(folder) !== contentOf(fresh)) losses.push('publish: the last run did not make all good');
  } finally {
    rmSync(root, { recursive: true });
  }
  const columns = [...Object.keys(outcomes), 'half files under another name', 'faults'];
  const row = [...Object.values(outcomes), halfFiles, losses.length];
  return { tables: [{ title: '`publish` killed at random moments', columns, rows: [row] }], losses };
}

async function fill(data: string): Promise<void> {
  const store = openStore(data, { nowMs: Date.now });
  for (const { scenario, seed, errors, description } of heronBurns().slice(0, BURNS)) {
    const sparse = { ...scenario, timing: { ...scenario.timing, readingEveryS: 5 } };
    await saveRecord(store, toBurnRecord(simulateBurn(sparse, seed, errors), description));
  }
  store.close();
}

/** Corrects something of every burn, so that there is something to write. */
function correct(data: string, massKg: number): void {
  const store = openStore(data, { nowMs: Date.now });
  for (const { id } of store.documents.list('burn')) {
    const weighing = store.documents.ofBurn('weighing', id)[0]!;
    const body = { ...weighing.body, massKg: 5 + massKg };
    store.documents.revise('weighing', weighing.id, { expectedVersion: weighing.version, body });
  }
  store.close();
}

/** @returns whether it ended by itself; a run that is not killed must end without an error */
async function run(data: string, folder: string, killAfterMs?: number): Promise<boolean> {
  const child = spawn(process.execPath, [COMMAND, 'publish', folder, '--data', data], {
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  let complaint = '';
  child.stderr.on('data', (text) => {
    complaint += String(text);
  });
  const timer = killAfterMs === undefined ? undefined : setTimeout(() => child.kill('SIGKILL'), killAfterMs);
  const [code] = await once(child, 'exit');
  clearTimeout(timer);
  if (code !== null && code !== 0) throw new Error(`publish ended with exit code ${code}: ${complaint}`);
  return code === 0;
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const beganMs = performance.now();
  await work();
  return performance.now() - beganMs;
}

function filesBelow(folder: string): string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

function contentOf(folder: string): string {
  const hash = createHash('sha256');
  for (const path of filesBelow(folder)) hash.update(path.slice(folder.length)).update(readFileSync(path));
  return hash.digest('hex');
}
