import { expect, onTestFinished, test } from 'vitest';
import { serialPortFactory } from '../../server/bridge/serial-port-factory.ts';
import { createBoardOnCable } from '../../server/simulator/board-on-cable.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import { heronBurns } from '../../server/simulator/heron.ts';
import type { Action } from '../../server/simulator/operator.ts';
import { openPseudoTerminal } from '../../server/simulator/pseudo-terminal.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { hasValue } from '../../shared/contract/has-value.ts';
import { analysisSchema, type ResultId } from '../../shared/contract/results.ts';
import { countLines } from '../support/counted-lines.ts';
import { createFakeClock } from '../support/fake-clock.ts';
import { type TestService, testService } from '../support/test-service.ts';

/** A scan every two seconds is enough for a pot of this size, and halves the time of the test. */
const EVERY_S = 2;

/** Creates the inventory of the record, and starts the burn. */
async function startBurn({ call }: TestService, record: BurnRecord): Promise<void> {
  const { stove, revision, vessel, place, fuelLots, scales = [] } = record;
  await call('POST', '/api/stoves', stove);
  await call('POST', '/api/revisions', { ...revision, parentId: undefined });
  await call('POST', '/api/vessels', vessel);
  await call('POST', '/api/places', place);
  for (const lot of fuelLots) await call('POST', '/api/fuel-lots', lot);
  for (const scale of scales) await call('POST', '/api/scales', scale);
  const { id, title, operator, startKind, target, hold } = record;
  const answer = await call('POST', '/api/burns', {
    ...{ id, title, operator, startKind, target, hold },
    status: 'running',
    revisionId: revision!.id,
    vesselId: vessel!.id,
    placeId: place!.id,
    fuelLotIds: fuelLots.map((lot) => lot.id),
    scaleIds: scales.map((scale) => scale.id),
  });
  expect(answer).toMatchObject({ status: 201, body: { summary: { origin: 'simulated', status: 'running' } } });
}

function markOf(action: Action, record: BurnRecord): object | undefined {
  if (action.kind === 'targetReached') return undefined;
  if (action.kind !== 'fed') return { kind: action.kind };
  const lot = record.fuelLots.find(({ kind }) => kind === action.wood)!;
  return { kind: 'fed', massKg: action.massKg, fuelLotId: lot.id };
}

test('a whole burn is recorded over a real pseudo-terminal into the database, and its results agree with the truth', async () => {
  const terminal = await openPseudoTerminal();
  if (!terminal.available) throw new Error(terminal.reason);
  const { scenario: usual, seed, description } = heronBurns()[4]!;
  const scenario = { ...usual, timing: { ...usual.timing, readingEveryS: EVERY_S } };
  const simulated = simulateBurn(scenario, seed);
  const record = toBurnRecord(simulated, description);

  const clock = createFakeClock();
  const lines = countLines(serialPortFactory);
  const service = await testService({ clock, portFactory: lines.ports });
  const { call, store } = service;
  const actions: Action[] = [];
  const bench = createBoardOnCable({
    scenario,
    seed,
    clock,
    onAction: (action) => actions.push(action),
    settings: { identity: description.boardId },
  });
  bench.plugInto(lines.cable(terminal));
  onTestFinished(() => bench.switchOff());
  const scan = () => lines.through(() => clock.advance(EVERY_S * 1000));

  const attached = call('POST', '/api/boards', { path: terminal.path });
  await lines.opened;
  await lines.through(() => bench.board.switchOn());
  const { status, body: board } = await attached;
  expect([status, board.state, board.channels.length]).toEqual([201, 'live', scenario.channels.length]);

  // Calibrated at ice and boiling point: a twentieth of a kelvin remains.
  for (const channel of board.channels.filter(({ role }: { role: string }) => role === 'water')) {
    await call('PATCH', `/api/boards/${board.id}/channels/${channel.id}`, {
      timeConstantS: 6,
      calibration: { method: 'icePointAndBoilingPoint', offset: 0, gain: 1, standardUncertainty: 0.05 },
    });
  }
  await startBurn(service, record);
  const url = `/api/burns/${record.id}`;
  const weigh = async (when: 'start' | 'end') => {
    for (const { elapsedUs: _planned, ...weighing } of record.weighings) {
      if (weighing.when === when) expect((await call('POST', `${url}/weighings`, weighing)).status).toBe(201);
    }
  };
  await weigh('start');
  while (!bench.bench.over) {
    await scan();
    for (const action of actions.splice(0)) {
      const mark = markOf(action, record);
      if (mark) expect((await call('POST', `${url}/marks`, mark)).status).toBe(201);
    }
  }
  await weigh('end');
  await call('PATCH', url, { expectedVersion: 1, status: 'complete' });

  const { body: detail } = await call('GET', url);
  expect(detail.gaps).toEqual([]);
  const stored = store.scans.columns(record.id, description.boardId).sequence;
  expect(stored.length).toBeGreaterThan(6000 / EVERY_S);
  expect(Array.from(stored)).toEqual(Array.from(stored, (_, index) => stored[0]! + index));
  expect(service.troubles).toEqual([]);

  const analysis = analysisSchema.parse((await call('GET', `${url}/results`)).body);
  const answerTo = (id: ResultId) => {
    const result = analysis.results.find((each) => each.id === id)!;
    if (!hasValue(result)) throw new Error(`${id} is missing: ${result.missing.code}`);
    return result.value;
  };
  const { truth } = simulated;
  const off = (id: ResultId) => Math.abs(answerTo(id) - truth[id]!);
  expect(off('timeToBoil')).toBeLessThan(10);
  expect(off('thermalEfficiency')).toBeLessThan(0.0005);
  // The generator's boiling point is that of its own water; the depth of the probes alone makes some hundredths.
  expect(off('localBoilingPoint')).toBeLessThan(0.05);
  expect(off('evaporatedWater')).toBeLessThan(0.01);
  expect(off('equivalentDryFuel')).toBeLessThan(0.001);
}, 120_000);
