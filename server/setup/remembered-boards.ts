import { realpathSync } from 'node:fs';
import type { Clock } from '../base/clock.ts';
import { newId } from '../base/identifiers.ts';
import type { RememberedBoard, Store } from '../store/store.ts';

/** Ports attached before, so that the next start of the service attaches its boards by itself. */
export function createRememberedBoards(store: Store, clock: Clock) {
  const { documents } = store;
  const at = (path: string) => documents.list('board').find(({ body }) => body.path === path);

  return {
    /** @param runningBurn whether a burn was running when the service stopped */
    toAttach: (runningBurn: boolean): RememberedBoard[] =>
      documents
        .list('board')
        .filter(({ withdrawn, body }) => !withdrawn && (runningBurn || !isPseudoTerminal(body.path)))
        .map(({ body }) => body),

    /** The identity of the board that was connected to a port before. */
    keyAt: (path: string): string | undefined => at(path)?.body.boardKey,

    remember(attach: Omit<RememberedBoard, 'id' | 'boardKey'>): void {
      const before = at(attach.path);
      if (!before) {
        const id = newId(clock.wallMs());
        documents.create('board', { id, body: { ...attach, id } });
        return;
      }
      const body = { ...before.body, ...attach };
      if (!before.withdrawn && JSON.stringify(body) === JSON.stringify(before.body)) return;
      documents.revise('board', before.id, { expectedVersion: before.version, body });
    },

    /** Records which board was connected to a port. */
    identify(path: string, boardKey: string): void {
      const before = at(path);
      if (!before || before.withdrawn || before.body.boardKey === boardKey) return;
      documents.revise('board', before.id, { expectedVersion: before.version, body: { ...before.body, boardKey } });
    },

    forget(path: string): void {
      const before = at(path);
      if (before && !before.withdrawn) documents.withdraw('board', before.id, { expectedVersion: before.version });
    },
  };
}

/**
 * After a restart the number of a pseudo-terminal may belong to another program, perhaps to a person's own terminal
 * window: it is opened again only in the middle of a burn.
 */
function isPseudoTerminal(path: string): boolean {
  try {
    return /^\/dev\/(pts\/|ttys\d|pty)/.test(realpathSync(path));
  } catch {
    return false;
  }
}
