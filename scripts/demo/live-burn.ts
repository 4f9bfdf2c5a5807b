import type { Clock } from '../../server/base/clock.ts';
import { toBurnRecord } from '../../server/simulator/burn-record.ts';
import type { HeronBurn } from '../../server/simulator/heron.ts';
import type { Action } from '../../server/simulator/operator.ts';
import { plannedBurn } from '../../server/simulator/planned-burn.ts';
import { simulateBurn } from '../../server/simulator/simulate-burn.ts';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import type { Weighing } from '../../shared/contract/weighings.ts';

/** The simulated person at the page: starts the burn, logs marks, weighs, and completes it. */
export interface LiveBurn {
  begin(boardPath: string): Promise<void>;
  act(action: Action): void;
  /** Stops; a burn that was not weighed and completed is removed. */
  abandon(): Promise<void>;
}

/**
 * @param address of the service; everything is done through its public interface
 * @param onOver called when the burn is complete, or was ended or deleted by another person
 */
export function createLiveBurn(address: string, burn: HeronBurn, clock: Clock, onOver: () => void): LiveBurn {
  // The board simulates the same burn from the same seed; this copy provides the scale readings in advance.
  const record = toBurnRecord(simulateBurn(burn.scenario, burn.seed, burn.errors), burn.description);
  const path = `/api/burns/${record.id}`;
  const { plan, timing } = burn.scenario;
  let queue: Promise<unknown> = Promise.resolve();
  let isAbandoned = false;

  /** One action after another, like a single person. A burn that another person has ended or deleted is left alone. */
  const then = (work: () => Promise<unknown>): Promise<unknown> => {
    queue = queue
      .then(() => isAbandoned || work())
      .catch((error: unknown) => console.error('stovebench: demonstration:', String(error)));
    return queue;
  };
  const send = (method: string, to: string, body: unknown) => request(address, method, to, body);
  const weigh = (weighing: Weighing) => send('POST', `${path}/weighings`, weighing);

  async function finish(): Promise<void> {
    const { burn: stored } = (await request(address, 'GET', path)) as BurnDetail;
    if (stored.status === 'running') await send('PATCH', path, { expectedVersion: stored.version, status: 'complete' });
  }

  return {
    async begin(boardPath) {
      await then(async () => {
        await send('POST', '/api/boards', { path: boardPath });
        await send('POST', '/api/burns', plannedBurn(record));
        for (const weighing of record.weighings) if (weighing.when === 'start') await weigh(weighing);
      });
    },

    act(action) {
      const mark = markOf(action, burn);
      if (mark) void then(() => send('POST', `${path}/marks`, mark));
      if (action.kind !== 'fireOut') return;
      clock.setTimer(plan.weighWaterAfterS * 1000, () => {
        for (const { elapsedUs: _planned, ...weighing } of record.weighings) {
          if (weighing.when === 'end') void then(() => weigh(weighing));
        }
      });
      clock.setTimer(timing.recordAfterFireOutS * 1000, () => void then(finish).then(onOver));
    },

    async abandon() {
      isAbandoned = true;
      await queue;
      // A started burn that no longer exists was removed by another person.
      const detail = (await request(address, 'GET', path).catch(() => undefined)) as BurnDetail | undefined;
      const status = detail?.burn.status;
      if (status === 'running' || status === 'ended') await send('DELETE', path, undefined);
    },
  };
}

/** The mark for an action; its moment is set by the service. Reaching the target is left to the curves. */
function markOf(action: Action, { description, errors }: HeronBurn): object | undefined {
  const by = description.operator;
  const { woodLot, kindlingLot, woodScale, waterScale } = description;
  switch (action.kind) {
    case 'targetReached':
      return undefined;
    case 'fed': {
      const massKg = errors.weighed('wood', action.massKg, `live ${action.elapsedS}`);
      const fuelLotId = (action.wood === 'wood' ? woodLot : kindlingLot).id;
      return { kind: 'fed', massKg, fuelLotId, scaleId: woodScale.id, by };
    }
    case 'waterIn':
      return { kind: 'waterIn', massKg: action.massKg, tempC: action.tempC, scaleId: waterScale.id, by };
    default:
      return { kind: action.kind, by };
  }
}

async function request(address: string, method: string, path: string, body?: unknown): Promise<unknown> {
  const response = await fetch(address + path, {
    method,
    ...(body !== undefined && { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }),
  });
  const text = await response.text();
  const answer: unknown = text === '' ? undefined : JSON.parse(text);
  if (!response.ok) throw new Error(`${method} ${path}: ${JSON.stringify(answer)}`);
  return answer;
}
