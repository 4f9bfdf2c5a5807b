/**
 * The life of an attached port as a pure state machine: no port, no clock. `next` returns the actions; `connection.ts`
 * carries them out and passes in what happens. Every failure leads to `searching` or `lost` and another try, never to
 * an end.
 */
export type ReaderPhase = 'idle' | 'searching' | 'opening' | 'waiting' | 'live' | 'silent' | 'lost';

export type ReaderState =
  /** Not to be connected. */
  | { phase: 'idle' }
  /** Never open so far; waiting for the next try. `failures` in a row. */
  | { phase: 'searching'; failures: number }
  | { phase: 'opening'; failures: number; wasOpen: boolean }
  /** Open, and no valid line yet: opening resets many boards, and the first seconds are boot text. `asked` times. */
  | { phase: 'waiting'; asked: number; failures: number }
  | { phase: 'live' }
  /** Was live, then nothing valid for too long; `asked` times since. */
  | { phase: 'silent'; asked: number }
  /** Was open, then the connection ended; waiting for the next try. */
  | { phase: 'lost'; failures: number };

export type ReaderEvent =
  | { kind: 'start' }
  | { kind: 'stop' }
  | { kind: 'opened' }
  | { kind: 'openFailed' }
  /** A valid line. */
  | { kind: 'frame' }
  /** The connection ended, by whichever event that was reported. */
  | { kind: 'ended' }
  /** The time of the last `wait` is over. */
  | { kind: 'timeUp' };

export type ReaderAction =
  | { kind: 'open' }
  /** Close the port, open or still opening. */
  | { kind: 'close' }
  | { kind: 'describe' }
  /** Replaces the wait before it. */
  | { kind: 'wait'; ms: number };

export interface ReaderLimits {
  openMs: number;
  /** Between two requests to a board that sends nothing valid. */
  askMs: number;
  /** A live board may be quiet for this long. */
  silenceMs: number;
  retryFirstMs: number;
  retryMostMs: number;
}

export interface ReaderStep {
  state: ReaderState;
  actions: ReaderAction[];
}

/**
 * A silent board is sent this many requests before its port is opened anew (data can stop without a reported error).
 */
const ASKS_WHEN_SILENT = 3;
/** A board that has sent nothing yet is given longer: opening the port may be what resets it. */
const ASKS_WHEN_WAITING = 12;

export function next(state: ReaderState, event: ReaderEvent, limits: ReaderLimits): ReaderStep {
  if (event.kind === 'stop')
    return { state: { phase: 'idle' }, actions: state.phase === 'idle' ? [] : [{ kind: 'close' }] };
  switch (state.phase) {
    case 'idle':
      return event.kind === 'start' ? open(0, false, limits) : stay(state);
    case 'searching':
    case 'lost':
      return event.kind === 'timeUp' ? open(state.failures, state.phase === 'lost', limits) : stay(state);
    case 'opening':
      if (event.kind === 'opened') {
        return {
          state: { phase: 'waiting', asked: 1, failures: state.failures },
          actions: [{ kind: 'describe' }, { kind: 'wait', ms: limits.askMs }],
        };
      }
      if (event.kind === 'openFailed') return retry(state.failures + 1, state.wasOpen, [], limits);
      if (event.kind === 'timeUp') return retry(state.failures + 1, state.wasOpen, [{ kind: 'close' }], limits);
      return stay(state);
    case 'waiting':
      if (event.kind === 'frame')
        return { state: { phase: 'live' }, actions: [{ kind: 'wait', ms: limits.silenceMs }] };
      if (event.kind === 'ended') return retry(state.failures + 1, true, [{ kind: 'close' }], limits);
      if (event.kind === 'timeUp') {
        if (state.asked >= ASKS_WHEN_WAITING) return retry(1, true, [{ kind: 'close' }], limits);
        return ask({ ...state, asked: state.asked + 1 }, limits);
      }
      return stay(state);
    case 'live':
      if (event.kind === 'frame') return { state, actions: [{ kind: 'wait', ms: limits.silenceMs }] };
      if (event.kind === 'ended') return retry(1, true, [{ kind: 'close' }], limits);
      if (event.kind === 'timeUp') return ask({ phase: 'silent', asked: 1 }, limits);
      return stay(state);
    case 'silent':
      if (event.kind === 'frame')
        return { state: { phase: 'live' }, actions: [{ kind: 'wait', ms: limits.silenceMs }] };
      if (event.kind === 'ended') return retry(1, true, [{ kind: 'close' }], limits);
      if (event.kind === 'timeUp') {
        if (state.asked >= ASKS_WHEN_SILENT) return retry(1, true, [{ kind: 'close' }], limits);
        return ask({ ...state, asked: state.asked + 1 }, limits);
      }
      return stay(state);
  }
}

function stay(state: ReaderState): ReaderStep {
  return { state, actions: [] };
}

function open(failures: number, wasOpen: boolean, limits: ReaderLimits): ReaderStep {
  return {
    state: { phase: 'opening', failures, wasOpen },
    actions: [{ kind: 'open' }, { kind: 'wait', ms: limits.openMs }],
  };
}

function ask(state: ReaderState, limits: ReaderLimits): ReaderStep {
  return { state, actions: [{ kind: 'describe' }, { kind: 'wait', ms: limits.askMs }] };
}

/**
 * Each failure doubles the wait up to a limit: a port opened too often may never come up, and a burn does not wait
 * long.
 */
function retry(failures: number, wasOpen: boolean, first: ReaderAction[], limits: ReaderLimits): ReaderStep {
  const ms = Math.min(limits.retryFirstMs * 2 ** Math.min(failures - 1, 20), limits.retryMostMs);
  return {
    state: wasOpen ? { phase: 'lost', failures } : { phase: 'searching', failures },
    actions: [...first, { kind: 'wait', ms }],
  };
}
