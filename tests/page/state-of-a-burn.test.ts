import { expect, test } from 'vitest';
import { alarmKey, alarmsFor, type Situation } from '../../shared/analysis/live/alarms.ts';
import type { Mark } from '../../shared/contract/marks.ts';
import { elapsedUsAt } from '../../web/burn/burn-clock.ts';
import { burnState, lastMasses, type ShownMark } from '../../web/burn/burn-state.ts';
import { pileDropKg } from '../../web/burn/pile.ts';

let made = 0;
function mark(kind: Mark['kind'], minute: number, more: object = {}): ShownMark {
  made += 1;
  return {
    mark: {
      id: `00000000-0000-7000-8000-${String(made).padStart(12, '0')}`,
      kind,
      elapsedUs: minute * 60e6,
      ...more,
    } as Mark,
    version: 1,
    state: 'kept',
  };
}

test('marks are read in the order of events, not of entry', () => {
  const state = burnState([mark('lidOff', 20), mark('lit', 2), mark('lidOn', 10), mark('fed', 5, { massKg: 1.1 })]);
  expect(state).toMatchObject({ litUs: 120e6, lidIsOn: false, potIsOn: true, lastAttentionUs: 1200e6 });
  expect(state.lastFed).toMatchObject({ massKg: 1.1 });
});

test('the first lighting starts the burn; relighting cancels a fire out but does not move the start', () => {
  const marks = [mark('lit', 1), mark('fireOut', 30)];
  expect(burnState(marks).fireOutUs).toBe(1800e6);
  const again = burnState([...marks, mark('relit', 33), mark('lit', 40)]);
  expect(again.litUs).toBe(60e6);
  expect(again.fireOutUs).toBeUndefined();
});

test('masses offered again are the last different ones, newest first', () => {
  const fed = [1.2, 0.9, 1.2, 0.7].map((massKg, index) => mark('fed', index, { massKg }));
  expect(lastMasses([...fed, mark('fed', 9)], 2)).toEqual([0.7, 1.2]);
});

test('the burn clock runs on between two events of the service, at the rate of the service', () => {
  const anchor = { elapsedUs: 10e6, deviceMs: 5000, timeScale: 20 };
  expect(elapsedUsAt(anchor, 5000)).toBe(10e6);
  expect(elapsedUsAt(anchor, 6500)).toBe(40e6);
});

const calm: Situation = {
  isLit: true,
  fireIsOut: false,
  goneBoards: [],
  unrecordedBoards: [],
  faultyProbes: [],
  estimate: {
    burnId: 'b',
    elapsedUs: 0,
    waterTempC: 60,
    targetTempC: 99,
    toTargetS: { value: 1500, interval95: [1200, 1900] },
  },
};
const kinds = (situation: Partial<Situation>) => alarmsFor({ ...calm, ...situation }).map(({ kind }) => kind);
const estimate = calm.estimate as NonNullable<Situation['estimate']>;

test('a sufficient fire raises no alarm', () => {
  expect(kinds({})).toEqual([]);
});

test('the alarm for wood is raised only well after the usual time between feeds of this fire', () => {
  expect(kinds({ estimate: { ...estimate, sinceAttentionS: 1250, usualAttentionS: 1200 } })).toEqual([]);
  expect(kinds({ estimate: { ...estimate, sinceAttentionS: 1500, usualAttentionS: 1200 } })).toEqual(['needsWood']);
  expect(kinds({ estimate: { ...estimate, sinceAttentionS: 1500 } })).toEqual([]);
});

test('alarms are raised before the target, at it, when the hold drops and when it is done', () => {
  const hold = { state: 'counting' as const, countedS: 20, neededS: 2700, floorTempC: 97 };
  expect(kinds({ estimate: { ...estimate, toTargetS: { value: 200, interval95: [150, 260] } } })).toEqual([
    'nearlyThere',
  ]);
  expect(kinds({ estimate: { ...estimate, waterTempC: 98.8, hold } })).toEqual(['target']);
  expect(
    kinds({ estimate: { ...estimate, waterTempC: 96, hold: { ...hold, state: 'dropped', countedS: 900 } } }),
  ).toEqual(['holdLow']);
  expect(
    kinds({ estimate: { ...estimate, waterTempC: 98.8, hold: { ...hold, state: 'done', countedS: 2700 } } }),
  ).toEqual(['holdDone']);
  const ended = { ...estimate, waterTempC: 90, hold: { ...hold, state: 'ended' as const, countedS: 900 } };
  expect(kinds({ estimate: { ...ended, sinceAttentionS: 1500, usualAttentionS: 1200 }, sinceReadingS: 900 })).toEqual(
    [],
  );
});

test('a board that is gone and a probe with wrong readings raise alarms even before lighting, each with its name', () => {
  const requests = alarmsFor({
    ...calm,
    isLit: false,
    estimate: undefined,
    goneBoards: ['bench board'],
    faultyProbes: [{ name: 'flue', fault: 'open' }],
  });
  expect(requests.map(alarmKey)).toEqual(['boardGone bench board', 'probe flue']);
});

test('the mass that left the scale under the pile since the last feed is offered as the next mass', () => {
  const pile = { t: [0, 60, 120, 180, 240], v: [9.5, 9.5, null, 8.301, 8.3] };
  expect(pileDropKg(pile, 60)).toBe(1.2);
  expect(pileDropKg(pile, 180)).toBeUndefined();
  expect(pileDropKg({ t: [], v: [] }, 0)).toBeUndefined();
});
