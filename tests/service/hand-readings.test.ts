import { expect, test } from 'vitest';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import { type BurnRecord, burnRecordSchema } from '../../shared/contract/burn-record.ts';
import { type BurnDetail, burnDetailSchema } from '../../shared/contract/burns.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import { analysisSchema, type ResultId } from '../../shared/contract/results.ts';
import { liveEventSchema } from '../../shared/contract/stream.ts';
import { openEventSource } from '../support/event-source.ts';
import { plugBenchBoard } from '../support/simulated-bench-board.ts';
import { burnId, testId } from '../support/temp-store.ts';
import { type TestService, testService } from '../support/test-service.ts';

const dialId = testId(501);
/** A plain dial thermometer, accurate to 2 °C, read to the nearest degree. */
const dial = {
  id: dialId,
  name: 'Water',
  role: 'water',
  unit: 'Cel',
  probe: { kind: 'dial' },
  standardUncertainty: 2 / Math.sqrt(3),
  noiseStandardDeviation: 1 / Math.sqrt(12),
};
const minutes = (count: number) => count * 60_000;

/** Starts a bench without any board, with a dial and a lit fire. */
async function burnByHand(more: object = {}) {
  let rings = 0;
  const service = await testService({ ring: () => void rings++ });
  expect((await service.call('POST', '/api/hand-probes', dial)).status).toBe(201);
  await service.call('POST', '/api/places', { id: testId(502), name: 'Dye yard', stationPressurePa: 98_500 });
  await service.call('POST', '/api/burns', { id: burnId, status: 'running', placeId: testId(502), ...more });
  await service.call('POST', `/api/burns/${burnId}/marks`, { kind: 'lit' });
  const read = (value: number, reported: object = {}) =>
    service.call('POST', `/api/burns/${burnId}/marks`, { kind: 'reading', channelId: dialId, value, ...reported });
  return { service, read, rings: () => rings };
}

async function recordOf({ call }: Pick<TestService, 'call'>, id = burnId): Promise<BurnRecord> {
  return burnRecordSchema.parse((await call('GET', `/api/burns/${id}/record`)).body);
}

/** Returns readings of a dial in a simulated burn, about every five minutes, beginning before lighting. */
function dialReadings(record: BurnRecord): { elapsedUs: number; value: number }[] {
  const water = channelCurves(record).filter(({ channel }) => channel.role === 'water');
  const timeS = water[0]!.timeS;
  const litS = record.marks.find(({ kind }) => kind === 'lit')!.elapsedUs / 1e6;
  const readings: { elapsedUs: number; value: number }[] = [];
  for (let atS = litS - 120; atS < timeS.at(-1)!; atS += 280 + 40 * Math.sin(atS)) {
    const index = timeS.findIndex((scanS) => scanS >= atS);
    const mean = water.reduce((sum, { value }) => sum + value[index]!, 0) / water.length;
    readings.push({ elapsedUs: Math.round(atS * 1e6), value: Math.round(mean) });
  }
  return readings;
}

/** Repeats a whole burn of the invented Heron with readings by hand, from a dial, a scale and a phone. */
async function wholeBurnByHand() {
  const { scenario, seed, errors, description } = heronBurns()[4]!;
  const burn = simulateBurn({ ...scenario, timing: { ...scenario.timing, readingEveryS: 10 } }, seed, errors);
  const record = toBurnRecord(burn, description);
  const service = await testService();
  const { call, clock } = service;
  for (const [path, things] of [
    ['stoves', [record.stove]],
    ['revisions', [{ ...record.revision, parentId: undefined }]],
    ['vessels', [record.vessel]],
    ['places', [record.place]],
    ['fuel-lots', record.fuelLots],
    ['scales', record.scales],
  ] as const)
    for (const thing of things!) {
      const { status, text } = await call('POST', `/api/${path}`, thing);
      expect(status, text).toBe(201);
    }
  await call('POST', '/api/hand-probes', dial);
  await call('POST', '/api/burns', {
    id: burnId,
    title: 'By hand',
    status: 'running',
    target: record.target,
    hold: record.hold,
    startKind: record.startKind,
    revisionId: record.revision!.id,
    vesselId: record.vessel!.id,
    placeId: record.place!.id,
    fuelLotIds: record.fuelLots.map(({ id }) => id),
    scaleIds: record.scales!.map(({ id }) => id),
    contents: record.contents,
  });
  const readings = dialReadings(record).map((reading, index) => ({
    ...reading,
    id: testId(600 + index),
    kind: 'reading',
    channelId: dialId,
  }));
  const entries = [...record.marks, ...readings].sort((a, b) => a.elapsedUs - b.elapsedUs);
  for (const entry of entries) {
    const now = ((await call('GET', `/api/burns/${burnId}`)).body as BurnDetail).elapsedUs!;
    clock.leap(Math.max(0, (entry.elapsedUs - now) / 1000));
    expect((await call('POST', `/api/burns/${burnId}/marks`, entry)).status).toBe(201);
  }
  for (const weighing of record.weighings)
    expect((await call('POST', `/api/burns/${burnId}/weighings`, weighing)).status).toBe(201);
  await call('PATCH', `/api/burns/${burnId}`, { expectedVersion: 1, status: 'ended' });
  return { service, truth: burn.truth, readings };
}

test('a burn read from a dial every five minutes has its results, with intervals that contain the truth', async () => {
  const { service, truth, readings } = await wholeBurnByHand();
  const { results } = analysisSchema.parse((await service.call('GET', `/api/burns/${burnId}/results`)).body);
  const resultOf = (id: ResultId) => {
    const result = results.find((each) => each.id === id)!;
    if (!hasValue(result)) throw new Error(`${id} is missing: ${result.missing.code}`);
    return result;
  };
  for (const id of ['timeToBoil', 'timeToTarget', 'meanUsefulPower', 'thermalEfficiency', 'dryWoodPerBatch'] as const) {
    const { interval95 } = resultOf(id);
    expect(interval95![0], id).toBeLessThan(truth[id]!);
    expect(interval95![1], id).toBeGreaterThan(truth[id]!);
  }
  // The interval allows for five minutes and two degrees, and a remark advises more frequent readings.
  const { interval95, remarks } = resultOf('timeToBoil');
  expect(interval95![1] - interval95![0]).toBeGreaterThan(240);
  expect(remarks!.map(({ code }) => code)).toContain('crossingBetweenReadings');
  expect(results.find(({ id }) => id === 'recoveryAfterFeed')).toMatchObject({
    missing: { code: 'readingsTooFarApart' },
  });

  const detail = burnDetailSchema.parse((await service.call('GET', `/api/burns/${burnId}`)).body);
  expect(detail.burn.origin).toBe('enteredByHand');
  expect(detail.gaps).toEqual([]);
  expect(detail.summary.curve.length).toBe(readings.length);
  const series = (await service.call('GET', `/api/burns/${burnId}/series?points=400`)).body;
  for (const { v } of series.curves) expect(v).not.toContain(null);
});

test('readings by hand are exported as ordinary readings, in every format, and imported unchanged', async () => {
  const { service, readings } = await wholeBurnByHand();
  const record = await recordOf(service);
  expect(record.readings).toHaveLength(1);
  const [{ elapsedUs, columns }] = record.readings as [BurnRecord['readings'][0]];
  const { scale } = record.channels[0]!;
  expect(elapsedUs.map((us, index) => [us, columns[0]!.counts[index]! * scale])).toEqual(
    readings.map((reading) => [reading.elapsedUs, reading.value]),
  );

  const csv = (await service.call('GET', `/api/burns/${burnId}/readings.csv`)).text.trim().split(/\r?\n/);
  expect(csv).toHaveLength(readings.length + 1);
  expect(csv.at(-1)).toContain(String(readings.at(-1)!.value));
  const report = await service.call('GET', `/api/burns/${burnId}/report.html?language=fr`);
  expect(report.status).toBe(200);

  const other = await testService();
  const staged = await other.app.inject({
    method: 'POST',
    url: '/api/imports?name=record.json',
    headers: { 'content-type': 'application/octet-stream' },
    payload: JSON.stringify(record),
  });
  expect(staged.statusCode, staged.body).toBe(201);
  expect((await other.call('POST', `/api/imports/${staged.json().id}/keep`, {})).status).toBe(200);
  expect(await recordOf(other)).toEqual(record);
  // There too a correction replaces the reading instead of adding one.
  const { id, value, ...rest } = readings[3]!;
  const mark = { ...rest, id, value: value + 1 };
  await other.call('PUT', `/api/burns/${burnId}/marks/${id}`, { mark, expectedVersion: 1 });
  const [corrected] = (await recordOf(other)).readings;
  expect(corrected!.columns[0]!.counts[3]).toBe((value + 1) * 1000);
  expect(corrected!.columns[0]!.counts).toHaveLength(readings.length);
});

test('a reading delivered twice counts once, with the moment at which it was read', async () => {
  const { service, read } = await burnByHand();
  service.clock.advance(minutes(5));
  const reading = { id: testId(510), elapsedUs: 200_000_000 };
  expect((await read(35.5, reading)).status).toBe(201);
  service.clock.advance(minutes(5));
  expect((await read(35.5, reading)).status).toBe(200);
  const { readings } = await recordOf(service);
  expect(readings).toEqual([
    { elapsedUs: [200_000_000], sequence: [0], boot: [0], columns: [{ channelId: dialId, counts: [35_500] }] },
  ]);
});

test('a reading is withdrawn and corrected like any mark, and the record contains who changed what', async () => {
  const { service, read } = await burnByHand();
  const [first, second] = [testId(511), testId(512)];
  service.clock.advance(minutes(5));
  const { body } = await read(530, { id: first, by: 'first' }).then(async (refused) => {
    expect(refused).toMatchObject({ status: 400, body: { code: 'mark/reading-impossible' } });
    return read(35, { id: first, by: 'first' });
  });
  service.clock.advance(minutes(5));
  await read(48, { id: second, by: 'first' });
  const corrected = { ...body.mark, value: 53 };
  const path = `/api/burns/${burnId}/marks`;
  expect(
    (await service.call('PUT', `${path}/${first}`, { mark: corrected, expectedVersion: 1, by: 'second' })).status,
  ).toBe(200);
  await service.call('DELETE', `${path}/${second}?expectedVersion=1&by=second`);
  const record = await recordOf(service);
  expect(record.readings.map(({ columns }) => columns[0]!.counts)).toEqual([[53_000]]);
  expect(record.edits).toMatchObject([
    { by: 'second', what: 'mark reading', before: { value: 35 }, after: { value: 53 } },
    { by: 'second', what: 'mark reading', before: { value: 48 }, after: null },
  ]);
});

test.each([
  ['water hotter than any pot', { value: 130 }, 'mark/reading-impossible', 'Water cannot be at 130'],
  ['a probe that nobody placed', { channelId: testId(599) }, 'mark/unknown-channel', 'no probe'],
  ['a moment still to come', { elapsedUs: 9e9 }, 'mark/in-the-future', 'future'],
])('%s is refused with a sentence on what to do, and nothing is stored', async (_, reported, code, words) => {
  const { service, read } = await burnByHand();
  const { status, body } = await read(50, reported);
  expect([status, body.code]).toEqual([400, code]);
  expect(body.message).toContain(words);
  expect((await recordOf(service)).readings).toEqual([]);
});

test('the water may have been read before lighting, even before recording started', async () => {
  const { service, read } = await burnByHand();
  service.clock.advance(minutes(2));
  expect((await read(17, { agoS: 300 })).status).toBe(201);
  expect((await read(18, { agoS: 60 })).status).toBe(201);
  const [{ elapsedUs }] = (await recordOf(service)).readings as [BurnRecord['readings'][0]];
  expect(elapsedUs).toEqual([-180e6, 60e6]);
});

test('entries of two phones at the same moment are both stored', async () => {
  const { service, read } = await burnByHand();
  service.clock.advance(minutes(5));
  const at = { elapsedUs: 300_000_000 };
  const responses = await Promise.all([read(40, { ...at, by: 'first' }), read(41, { ...at, by: 'second' })]);
  expect(responses.map(({ status }) => status)).toEqual([201, 201]);
  const [{ elapsedUs, columns }] = (await recordOf(service)).readings as [BurnRecord['readings'][0]];
  expect(elapsedUs).toEqual([300_000_000, 300_000_001]);
  expect([...columns[0]!.counts].sort()).toEqual([40_000, 41_000]);
});

test('the live figure is the last reading with its age; the hold counts, and an alarm is raised when a reading is due', async () => {
  const { service, read, rings } = await burnByHand({ hold: { durationS: 1800, onDrop: 'pause' } });
  const page = await openEventSource(await service.app.listen({ host: '127.0.0.1', port: 0 }));
  const { event: snapshot } = await page.until('snapshot');
  expect(snapshot.handProbes).toEqual([dial]);
  const estimateAfter = async (ms: number) => {
    await service.clock.advanceAsync(ms);
    const known = page.received.flatMap(({ event }) => (event.type === 'estimate' ? [event.estimate] : [])).at(-1);
    const us = Math.floor(service.clock.monotonicUs() / 5e6) * 5e6;
    return known && known.elapsedUs >= us
      ? known
      : (await page.until('estimate', ({ estimate }) => estimate.elapsedUs >= us)).event.estimate;
  };
  await read(20);
  await service.clock.advanceAsync(minutes(5));
  await read(40);
  await service.clock.advanceAsync(minutes(5));
  await read(60);
  const now = await estimateAfter(minutes(2));
  expect(now).toMatchObject({ waterTempC: 60, waterReadUs: minutes(10) * 1000, hold: { state: 'notYet' } });
  expect(now.rateKPerMin).toBeCloseTo(4, 6);
  // About 39 K remain at 4 K per minute, two minutes after the reading.
  expect(now.toTargetS!.value).toBeGreaterThan(300);
  expect(now.toTargetS!.value).toBeLessThan(660);
  expect(now.standardUncertaintyK).toBeCloseTo(Math.hypot(2 / Math.sqrt(3), 1 / Math.sqrt(12)), 6);

  expect(rings()).toBe(0);
  await service.clock.advanceAsync(minutes(8) + 10_000);
  const due = await page.until('calls', ({ calls: alarms }) => alarms.some(({ kind }) => kind === 'readingDue'));
  expect(liveEventSchema.parse(due.event)).toEqual(due.event);
  expect(due.event.calls.map(({ kind }) => kind)).not.toContain('boardGone');
  expect(rings()).toBeGreaterThan(0);
  await read(99);
  await service.clock.advanceAsync(minutes(6));
  // The target counts as reached when it has been held for a minute, and nothing is due any more.
  await page.until('calls', ({ calls: alarms }) => alarms.map(({ kind }) => kind).join() === 'target');
  await read(99);
  const held = await estimateAfter(minutes(1));
  expect(held.hold).toMatchObject({ state: 'counting' });
  expect(held.hold!.countedS).toBeGreaterThan(minutes(6) / 1000);
  expect(held.hold!.countedS).toBeLessThan(minutes(8) / 1000);
});

test('in addition to a board a person reads what it does not measure; the water counts by hand only when the board no longer reads it', async () => {
  const service = await testService();
  const { call, clock } = service;
  const flue = { ...dial, id: testId(520), name: 'Flue dial', role: 'flue' };
  await call('POST', '/api/hand-probes', dial);
  await call('POST', '/api/hand-probes', flue);
  const board = plugBenchBoard(service.ports, clock);
  const attached = call('POST', '/api/boards', { path: 'bench' });
  await clock.advanceAsync(20_000);
  const boardKey = (await attached).body.id;
  await call('POST', '/api/burns', { id: burnId, status: 'running' });
  const marks = `/api/burns/${burnId}/marks`;
  await call('POST', marks, { kind: 'lit' });
  const page = await openEventSource(await service.app.listen({ host: '127.0.0.1', port: 0 }));
  await page.until('snapshot');
  await clock.advanceAsync(30_000);
  expect((await call('POST', marks, { kind: 'reading', channelId: flue.id, value: 240 })).status).toBe(201);
  expect((await call('POST', marks, { kind: 'reading', channelId: dialId, value: 90 })).status).toBe(201);
  const [water] = ((await call('GET', '/api/boards')).body.boards[0].channels as { id: string; name: string }[]).map(
    ({ id }) => id,
  );
  expect((await call('POST', marks, { kind: 'reading', channelId: water, value: 20 })).body.code).toBe(
    'mark/not-hand-read',
  );
  await clock.advanceAsync(10_000);
  const { event: measured } = await page.until('estimate', ({ estimate }) => estimate.elapsedUs >= 38e6);
  expect(measured.estimate.waterTempC).toBeLessThan(40);
  expect(measured.estimate).not.toHaveProperty('waterReadUs');

  await board.unplug();
  await clock.advanceAsync(60_000);
  await call('POST', marks, { kind: 'reading', channelId: dialId, value: 31 });
  const { event } = await page.until('estimate', ({ estimate }) => estimate.waterReadUs !== undefined);
  expect(event.estimate.waterTempC).toBe(31);
  const { event: called } = await page.until('calls', ({ calls: alarms }) => alarms.length > 0);
  expect(called.calls).toMatchObject([{ kind: 'boardGone' }]);

  const { readings, origin } = await recordOf(service);
  expect(origin).toBe('simulated');
  expect(readings.map(({ boardId }) => boardId)).toEqual([boardKey, undefined, undefined]);
  const [, scans, dialled] = (await call('GET', `/api/burns/${burnId}/readings.csv`)).text.split(/\r?\n/);
  expect(scans!.split(',').length).toBe(dialled!.split(',').length);
});

test('a hand-read probe is placed once however often it is sent, replaced, removed, and added to a running burn', async () => {
  const { service } = await burnByHand();
  const { call } = service;
  expect((await call('POST', '/api/hand-probes', dial)).status).toBe(200);
  expect((await call('POST', '/api/hand-probes', { ...dial, name: 'Vat' })).status).toBe(200);
  const ambient = { id: testId(530), name: 'Shade', role: 'ambient', unit: 'Cel' };
  expect((await call('POST', '/api/hand-probes', ambient)).status).toBe(201);
  expect((await call('GET', '/api/hand-probes')).body.handProbes).toEqual([{ ...dial, name: 'Vat' }, ambient]);
  const { burn } = (await call('GET', `/api/burns/${burnId}`)).body as BurnDetail;
  expect(burn.channels.map(({ name, handRead }) => [name, handRead])).toEqual([
    ['Water', true],
    ['Shade', true],
  ]);
  expect((await call('DELETE', `/api/hand-probes/${dialId}`)).status).toBe(204);
  expect((await call('DELETE', `/api/hand-probes/${dialId}`)).status).toBe(204);
  expect((await call('DELETE', `/api/hand-probes/${testId(531)}`)).body.code).toBe('probe/hand-probe-not-found');
  expect((await call('GET', '/api/hand-probes')).body.handProbes).toEqual([ambient]);
  const refused = await call('POST', '/api/hand-probes', { name: '', role: 'water', unit: 'K' });
  expect(refused.status).toBe(400);
  expect(refused.body.issues.map(({ path }: { path: string }) => path)).toEqual(['name', 'unit']);
});

test('a service that restarts in the middle of a burn continues with its stored readings', async () => {
  const { service, read } = await burnByHand();
  service.clock.advance(minutes(5));
  await read(40);
  await service.close();
  service.clock.leap(minutes(3));
  const again = await testService({ folder: service.folder, clock: service.clock });
  const page = await openEventSource(await again.app.listen({ host: '127.0.0.1', port: 0 }));
  await page.until('snapshot');
  await again.clock.advanceAsync(10_000);
  const { event } = await page.until('estimate');
  expect(event.estimate).toMatchObject({ waterTempC: 40, waterReadUs: minutes(5) * 1000 });
  expect(event.estimate.elapsedUs).toBeGreaterThan(minutes(8) * 1000);
});
