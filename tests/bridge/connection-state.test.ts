import { describe, expect, it } from 'vitest';
import { next, type ReaderEvent, type ReaderLimits, type ReaderState } from '../../server/bridge/connection-state.ts';
import fc from '../support/properties.ts';

const limits: ReaderLimits = { openMs: 10_000, askMs: 5_000, silenceMs: 3_000, retryFirstMs: 250, retryMostMs: 5_000 };

function run(events: readonly ReaderEvent['kind'][], from: ReaderState = { phase: 'idle' }) {
  let state = from;
  const actions: string[] = [];
  const waits: number[] = [];
  for (const kind of events) {
    const step = next(state, { kind }, limits);
    state = step.state;
    for (const action of step.actions) {
      if (action.kind === 'wait') waits.push(action.ms);
      else actions.push(action.kind);
    }
  }
  return { state, actions, waits };
}

describe('The reader', () => {
  it('opens, sends a command, and is live with the first valid line', () => {
    expect(run(['start'])).toMatchObject({ state: { phase: 'opening' }, actions: ['open'] });
    expect(run(['start', 'opened'])).toMatchObject({ state: { phase: 'waiting' }, actions: ['open', 'describe'] });
    expect(run(['start', 'opened', 'frame'])).toMatchObject({
      state: { phase: 'live' },
      waits: [10_000, 5_000, 3_000],
    });
  });

  it('retries a port that does not open, at growing intervals up to a limit', () => {
    const failing = Array.from({ length: 8 }, () => ['openFailed', 'timeUp'] as const).flat();
    const { state, waits } = run(['start', ...failing]);
    expect(state).toEqual({ phase: 'opening', failures: 8, wasOpen: false });
    expect(waits.filter((ms) => ms !== limits.openMs)).toEqual([250, 500, 1000, 2000, 4000, 5000, 5000, 5000]);
  });

  it('starts with short intervals again once it has been live', () => {
    const { state, waits } = run(['start', 'openFailed', 'timeUp', 'openFailed', 'timeUp', 'opened', 'frame', 'ended']);
    expect(state).toEqual({ phase: 'lost', failures: 1 });
    expect(waits.at(-1)).toBe(250);
  });

  it('gives up a port whose opening never ends', () => {
    expect(run(['start', 'timeUp'])).toMatchObject({ state: { phase: 'searching' }, actions: ['open', 'close'] });
  });

  it('sends a command to a board that fell silent, then reopens its port', () => {
    const silent = run(['start', 'opened', 'frame', 'timeUp']);
    expect(silent).toMatchObject({ state: { phase: 'silent', asked: 1 }, actions: ['open', 'describe', 'describe'] });
    expect(run(['timeUp', 'timeUp', 'timeUp'], silent.state)).toMatchObject({
      state: { phase: 'lost' },
      actions: ['describe', 'describe', 'close'],
    });
    expect(run(['frame'], silent.state).state).toEqual({ phase: 'live' });
  });

  it('waits a minute for a board that never sent anything before it reopens the port, because opening may reset the board', () => {
    const { state, waits } = run(['start', 'opened', ...Array.from({ length: 12 }, () => 'timeUp' as const)]);
    expect(state.phase).toBe('lost');
    expect(waits.filter((ms) => ms === limits.askMs)).toHaveLength(12);
  });

  it('ends once, in whatever order and however often the end is reported', () => {
    const once = run(['start', 'opened', 'frame', 'ended']);
    const twice = run(['start', 'opened', 'frame', 'ended', 'ended', 'ended']);
    expect(twice).toEqual(once);
  });
});

describe('The reader after any events', () => {
  const kinds = ['start', 'opened', 'openFailed', 'frame', 'ended', 'timeUp', 'stop'] as const;

  it('always waits for an event or a timer, unless it is stopped', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...kinds)), (events) => {
        let state: ReaderState = { phase: 'idle' };
        let waiting = false;
        for (const kind of events) {
          if (kind === 'timeUp') waiting = false;
          const step = next(state, { kind }, limits);
          state = step.state;
          waiting ||= step.actions.some((action) => action.kind === 'wait');
          if (state.phase === 'idle') waiting = false;
          else expect(waiting).toBe(true);
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('never opens a port while it has one open', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...kinds)), (events) => {
        let state: ReaderState = { phase: 'idle' };
        let held = 0;
        for (const kind of events) {
          const before = state.phase;
          // Events that an open port cannot have are skipped.
          if (kind === 'opened' && before !== 'opening') continue;
          if (kind === 'openFailed' && before === 'opening') held = 0;
          const step = next(state, { kind }, limits);
          state = step.state;
          for (const action of step.actions) {
            if (action.kind === 'close') held = 0;
            if (action.kind === 'open') held++;
            expect(held).toBeLessThanOrEqual(1);
          }
        }
      }),
      { numRuns: 1000 },
    );
  });

  it('closes the port when it is stopped', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...kinds)), (events) => {
        const { state } = run(events);
        const stopped = next(state, { kind: 'stop' }, limits);
        expect(stopped.state).toEqual({ phase: 'idle' });
        if (state.phase !== 'idle') expect(stopped.actions).toEqual([{ kind: 'close' }]);
      }),
    );
  });
});
