import { type Alarm, alarmKey, alarmsFor } from '../../shared/analysis/live/alarms.ts';
import type { Alarm as AlarmInForce, BurnAlarms } from '../../shared/contract/alarms.ts';
import type { Channel } from '../../shared/contract/burn-record.ts';
import type { Estimate } from '../../shared/contract/live-estimates.ts';
import type { Clock } from '../base/clock.ts';
import { newId } from '../base/identifiers.ts';
import type { Hub } from '../live/hub.ts';
import { findBurn } from '../records/versioned-documents.ts';
import type { Setup } from '../setup/setup.ts';
import type { Store } from '../store/store.ts';
import type { BurnClock } from './burn-clock.ts';
import type { RecordingWatch } from './recording-watch.ts';

/** Often enough for a person, and rare enough for a board that sends a hundred scans a second. */
const LOOK_EVERY_US = 1e6;
/** A probe with a loose contact must not sound the alarm continuously. */
const RING_AGAIN_US = 60e6;

interface Watched {
  estimate?: Estimate;
  lookedUs: number;
  inForce: Map<string, AlarmInForce>;
  rungUs: Map<string, number>;
}

export interface AlarmsContext {
  store: Store;
  clock: Clock;
  time: BurnClock;
  hub: Hub;
  setup: Pick<Setup, 'boards'>;
  watch: Pick<RecordingWatch, 'unrecorded'>;
  /** Plays the alarm sound on the bench machine itself: a phone out of reach is silent. */
  ring(): void;
}

/**
 * Seconds since a person read the water; before the first reading, since lighting. Undefined where a board reads it, or
 * no probe can.
 */
function sinceReading(channels: readonly Channel[], estimate: Estimate, litUs: number): number | undefined {
  const water = channels.filter(({ role }) => role === 'water');
  if (estimate.waterReadUs !== undefined) return (estimate.elapsedUs - estimate.waterReadUs) / 1e6;
  return water.length > 0 && water.every(({ handRead }) => handRead) ? (estimate.elapsedUs - litUs) / 1e6 : undefined;
}

/**
 * Decides when the stove, or the bench, needs the person; publishes the alarms to every page and sounds the bench
 * machine.
 */
export function createAlarms({ store, clock, time, hub, setup, watch, ring }: AlarmsContext) {
  const watched = new Map<string, Watched>();
  /** Names of boards that were attached before. */
  const names = new Map<string, string>();
  const of = (burnId: string): Watched => {
    const known = watched.get(burnId) ?? {
      lookedUs: Number.NEGATIVE_INFINITY,
      inForce: new Map(),
      rungUs: new Map(),
    };
    watched.set(burnId, known);
    return known;
  };

  /** An unplugged board is known by its port only: it is gone when it is not among the boards that are present. */
  function goneBoards(wanted: ReadonlySet<string>): string[] {
    const boards = setup.boards();
    for (const { id, name, path } of boards) if (wanted.has(id)) names.set(id, name ?? path);
    const isComing = boards.some(({ state }) => state === 'opening' || state === 'waiting');
    return [...wanted].flatMap((id) => {
      const board = boards.find((each) => each.id === id);
      if (board) return board.state === 'lost' || board.state === 'silent' ? [board.name ?? board.path] : [];
      const seen = names.get(id);
      if (seen !== undefined) return [seen];
      // After a restart it is unknown which board is connected to which port, until each identifies itself.
      const unknown = isComing ? undefined : boards.find(({ state }) => state === 'lost')?.path;
      return unknown === undefined ? [] : [unknown];
    });
  }

  function situation(burnId: string, estimate: Estimate | undefined): Alarm[] {
    const { channels } = findBurn(store, burnId).body;
    const marks = store.documents.ofBurn('mark', burnId).filter(({ withdrawn }) => !withdrawn);
    // Marks from before the start of recording have negative moments.
    const lastOf = (...kinds: string[]) =>
      Math.max(
        Number.NEGATIVE_INFINITY,
        ...marks.flatMap(({ body }) => (kinds.includes(body.kind) ? [body.elapsedUs] : [])),
      );
    const boards = setup.boards().filter(({ id }) => channels.some(({ boardId }) => boardId === id));
    const faults = new Map(boards.flatMap((board) => board.channels.map(({ id, latest }) => [id, latest?.fault])));
    return alarmsFor({
      estimate,
      sinceReadingS: estimate && sinceReading(channels, estimate, lastOf('lit')),
      isLit: lastOf('lit') > Number.NEGATIVE_INFINITY,
      fireIsOut: lastOf('fireOut') > lastOf('relit'),
      goneBoards: goneBoards(new Set(channels.flatMap(({ boardId }) => boardId ?? []))),
      unrecordedBoards: watch.unrecorded(burnId).map(({ name }) => name),
      faultyProbes: channels.flatMap(({ id, name }) => {
        const fault = faults.get(id);
        return fault ? [{ name, fault }] : [];
      }),
    });
  }

  function look(burnId: string): void {
    const sinceUs = time.now(burnId);
    if (sinceUs === undefined) return;
    const known = of(burnId);
    const nowUs = clock.monotonicUs();
    known.lookedUs = nowUs;
    const raised = new Map(situation(burnId, known.estimate).map((alarm) => [alarmKey(alarm), alarm]));
    const isSame = raised.size === known.inForce.size && [...raised.keys()].every((key) => known.inForce.has(key));
    if (isSame) return;
    const fresh = [...raised.keys()].filter((key) => !known.inForce.has(key));
    known.inForce = new Map(
      [...raised].map(([key, alarm]) => [
        key,
        known.inForce.get(key) ?? ({ ...alarm, id: newId(clock.wallMs()), sinceUs } as AlarmInForce),
      ]),
    );
    hub.publish({ type: 'calls', burnId, calls: [...known.inForce.values()] });
    const unheard = fresh.filter((key) => nowUs - (known.rungUs.get(key) ?? -Infinity) > RING_AGAIN_US * clock.scale);
    for (const key of unheard) known.rungUs.set(key, nowUs);
    if (unheard.length > 0) ring();
  }

  return {
    /** Re-evaluates the alarms of a burn after another change on which they may depend. */
    look,
    /** The burn has a new estimate. */
    estimated(estimate: Estimate): void {
      const known = of(estimate.burnId);
      known.estimate = estimate;
      if (clock.monotonicUs() - known.lookedUs >= LOOK_EVERY_US * clock.scale) look(estimate.burnId);
    },
    end(burnId: string): void {
      const known = watched.get(burnId);
      watched.delete(burnId);
      if (known && known.inForce.size > 0) hub.publish({ type: 'calls', burnId, calls: [] });
    },
    list: (): BurnAlarms[] =>
      [...watched]
        .map(([burnId, { inForce }]) => ({ burnId, calls: [...inForce.values()] }))
        .filter(({ calls: raised }) => raised.length > 0),
  };
}
