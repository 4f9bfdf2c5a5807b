import { type ChildProcess, fork } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { canonicalJson } from '../../server/exports/canonical-json.ts';
import type { ImportOutcome, ImportPreview } from '../../shared/contract/imports.ts';
import { memoryGivenBack, serviceOptions } from '../launch/hand-over.mjs';
import type { Measurement } from '../tools/measurement.ts';
import { residentMb } from '../tools/resident-memory.ts';
import { inventedBurn } from './exports/invented-burn.ts';
import { type HardRequest, hardRequests } from './heavy/hard-requests.ts';

const SAMPLE_EVERY_MS = 20;
/** What the worker process may stay for without work, and a little more. */
const AT_REST_MS = 14_000;

interface Measured {
  process: ChildProcess;
  address: string;
}

/**
 * Hard requests to a service that records four boards of eight channels ten times a second: how long each held its loop up, beside a server
 * that did nothing meanwhile, and the memory of service and worker together, beside the service before any of them. Linux only.
 */
export default async function measure(): Promise<Measurement[]> {
  if (process.platform !== 'linux') return [];
  const folder = mkdtempSync(join(tmpdir(), 'stovebench-bench-heavy-'));
  const [service, control] = [await started([folder]), await started([])];
  try {
    const burnId = await importBurn(service.address);
    await pause(AT_REST_MS);
    const beforeMb = residentMb(service.process.pid!);
    const rows: Measurement[] = [];
    for (const request of hardRequests(burnId)) rows.push(...(await measureOne(request, service, control, beforeMb)));
    await pause(AT_REST_MS);
    rows.push(memoryRow('after all of them, at rest', residentMb(service.process.pid!), beforeMb));
    return rows;
  } finally {
    for (const { process: one } of [service, control]) one.kill('SIGKILL');
    rmSync(folder, { recursive: true, force: true });
  }
}

async function started(args: string[]): Promise<Measured> {
  const script = join(import.meta.dirname, 'heavy', 'recording-service.ts');
  // As it is launched.
  const env = { ...memoryGivenBack, ...globalThis.process.env };
  const process = fork(script, args, { execArgv: serviceOptions, env });
  const [{ port }] = (await once(process, 'message')) as [{ port: number }];
  return { process, address: `http://127.0.0.1:${port}` };
}

/** Four hours at one scan a second. */
async function importBurn(address: string): Promise<string> {
  const record = inventedBurn(14_400, 1_000_000);
  const sent = await fetch(`${address}/api/imports?name=burn.json`, {
    method: 'POST',
    headers: { 'content-type': 'application/octet-stream' },
    body: canonicalJson(record),
  });
  const { id } = (await sent.json()) as ImportPreview;
  const saved = await fetch(`${address}/api/imports/${id}/keep`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: '{}',
  });
  return ((await saved.json()) as ImportOutcome).burns[0]!.id;
}

async function measureOne(
  { name, send }: HardRequest,
  service: Measured,
  control: Measured,
  beforeMb: number,
): Promise<Measurement[]> {
  for (const { process: one } of [service, control]) one.send('reset');
  let peakMb = 0;
  const sampling = setInterval(() => {
    peakMb = Math.max(peakMb, residentMb(service.process.pid!));
  }, SAMPLE_EVERY_MS);
  const startedMs = performance.now();
  const outcomes = await Promise.all(send(service.address).map(whole));
  const seconds = (performance.now() - startedMs) / 1000;
  clearInterval(sampling);
  console.error(`  ${name}: ${[...new Set(outcomes)].join(', ')} after ${seconds.toFixed(1)} s`);
  const [stallMs, controlMs] = [await longestStall(service), await longestStall(control)];
  return [
    {
      name: `${name}: longest stall`,
      value: stallMs,
      unit: 'ms',
      floor: controlMs,
      floorName: 'a server that did nothing',
      ratio: stallMs / controlMs,
    },
    memoryRow(`${name}: service and worker, most`, peakMb, beforeMb),
  ];
}

/** Its status, or the code of its refusal. */
async function whole(sent: Promise<Response>): Promise<string> {
  try {
    const response = await sent;
    const body = await response.arrayBuffer();
    if (response.ok) return `${response.status}`;
    return `${response.status} ${(JSON.parse(Buffer.from(body).toString()) as { code: string }).code}`;
  } catch (error) {
    return `no answer (${error instanceof Error ? (error.cause ?? error.message) : error})`;
  }
}

async function longestStall({ process: one }: Measured): Promise<number> {
  const answered = once(one, 'message');
  one.send('read');
  return ((await answered) as [{ longestMs: number }])[0].longestMs;
}

function memoryRow(name: string, valueMb: number, beforeMb: number): Measurement {
  const floorName = 'the service before, at rest';
  return { name, value: valueMb, unit: 'MB', floor: beforeMb, floorName, ratio: valueMb / beforeMb };
}
