/** Runs work requested by several callers once, and continues as long as one of them waits. */
export function createSharedWork<T>() {
  const underWay = new Map<string, { result: Promise<T>; waiting: number; abort: AbortController }>();

  function begin(key: string, start: (signal: AbortSignal) => Promise<T>) {
    const abort = new AbortController();
    const result = start(abort.signal).finally(() => {
      if (underWay.get(key) === begun) underWay.delete(key);
    });
    const begun = { result, waiting: 0, abort };
    underWay.set(key, begun);
    return begun;
  }

  /** @param signal aborts this caller's wait; without a signal the work is never aborted */
  return (key: string, start: (signal: AbortSignal) => Promise<T>, signal?: AbortSignal): Promise<T> => {
    const shared = underWay.get(key) ?? begin(key, start);
    shared.waiting += 1;
    signal?.addEventListener('abort', () => {
      shared.waiting -= 1;
      if (shared.waiting > 0) return;
      underWay.delete(key);
      shared.abort.abort();
    });
    return shared.result;
  };
}
