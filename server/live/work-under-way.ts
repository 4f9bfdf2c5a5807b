/** The long work that the bench does for somebody: every page shows how far it is, and anybody may cancel it. */
import type { Work } from '../../shared/contract/work.ts';
import { AppError } from '../base/app-error.ts';
import type { Hub } from './hub.ts';

/** Shorter work would only flicker on the screen. */
const SHOWN_AFTER_MS = 700;
const SHOWN_EVERY_MS = 250;

/** One piece of work, for whoever does it. */
export interface ShownWork {
  /** Aborted when it is cancelled, or when nobody waits for it any more. */
  readonly signal: AbortSignal;
  /** What it is doing now, where it has several parts. */
  turnTo(kind: Work['kind']): void;
  onProgress(done: number, of: number): void;
  /** It is over, or can no longer be cancelled. */
  end(): void;
}

export interface WorkOptions {
  /** Chosen by whoever asks for it. */
  id?: string | undefined;
  /** Aborted when nobody waits for it any more. */
  gone?: AbortSignal;
}

export type WorkUnderWay = ReturnType<typeof createWorkUnderWay>;

/** @param newId for work that nobody has named */
export function createWorkUnderWay(hub: Pick<Hub, 'show'>, newId: () => string) {
  const all = new Map<string, { work: Work; isShown: boolean; cancellation: AbortController }>();
  let next: NodeJS.Timeout | undefined;

  function show(): void {
    clearTimeout(next);
    next = undefined;
    const work = [...all.values()].filter(({ isShown }) => isShown).map((entry) => entry.work);
    hub.show({ type: 'work', work });
  }

  return {
    list: (): Work[] => [...all.values()].map(({ work }) => work),

    begin(kind: Work['kind'], { id: wanted, gone }: WorkOptions = {}): ShownWork {
      const id = wanted === undefined || all.has(wanted) ? newId() : wanted;
      const cancellation = new AbortController();
      const entry = { work: { id, kind, done: 0, of: 0 }, isShown: false, cancellation };
      all.set(id, entry);
      const shown = setTimeout(() => {
        entry.isShown = true;
        show();
      }, SHOWN_AFTER_MS);
      shown.unref();
      const change = (changed: Partial<Work>) => {
        Object.assign(entry.work, changed);
        if (entry.isShown && all.has(id)) next ??= setTimeout(show, SHOWN_EVERY_MS).unref();
      };
      return {
        signal: gone ? AbortSignal.any([gone, cancellation.signal]) : cancellation.signal,
        turnTo: (now) => change({ kind: now, done: 0, of: 0 }),
        onProgress: (done, of) => change({ done, of }),
        end() {
          clearTimeout(shown);
          if (all.delete(id) && entry.isShown) show();
        },
      };
    },

    /** @throws AppError work/over */
    cancel(id: string): void {
      const entry = all.get(id);
      if (!entry) throw new AppError('work/over');
      entry.cancellation.abort(new AppError('worker/cancelled'));
    },
  };
}
