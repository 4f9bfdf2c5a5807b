import {
  type BoardState,
  type Bridge,
  type BridgeOptions,
  createBridge,
  type GapEvent,
  type ScanEvent,
} from '../../server/bridge/bridge.ts';

/** A bridge whose events a test can read and wait for. */
export interface WatchedBridge {
  bridge: Bridge;
  scans: ScanEvent[];
  gaps: GapEvent[];
  states: BoardState[];
  /** Resolves when the condition is true, which is tested after every event. */
  until(condition: () => boolean): Promise<void>;
}

export function watchBridge(options: Omit<BridgeOptions, 'newId'> & { newId?: () => string }): WatchedBridge {
  let ids = 0;
  const newId = options.newId ?? (() => `01995f3a-7c2e-7d41-9b1e-${(++ids).toString(16).padStart(12, '0')}`);
  const bridge = createBridge({ ...options, newId });
  const scans: ScanEvent[] = [];
  const gaps: GapEvent[] = [];
  const states: BoardState[] = [];
  const waiting = new Set<() => void>();
  const look = (): void => {
    for (const each of waiting) each();
  };
  bridge.on('scan', (event) => {
    scans.push(event);
    look();
  });
  bridge.on('gap', (event) => {
    gaps.push(event);
    look();
  });
  bridge.on('board', (state) => {
    states.push(state);
    look();
  });
  return {
    bridge,
    scans,
    gaps,
    states,
    until: (condition) =>
      new Promise((resolve) => {
        const check = (): void => {
          if (!condition()) return;
          waiting.delete(check);
          resolve();
        };
        waiting.add(check);
        check();
      }),
  };
}
