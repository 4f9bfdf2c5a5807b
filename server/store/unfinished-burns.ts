/**
 * Which burns run or are not weighed yet, without reading the others: as remembered when the data were closed whole, else read once.
 * What was written is looked at again the next time, so a transaction that is undone leaves nothing behind.
 */
export interface UnfinishedBurns {
  /** Identifiers, inside a transaction of the caller as it stands there. */
  ids(): readonly string[];
  written(burnId: string): void;
  /** Undefined where nobody has asked for them, so that they are not read only to be remembered. */
  known(): readonly string[] | undefined;
}

/** @param read from the database; of one burn, or of all in the order they were made */
export function createUnfinishedBurns(
  read: { isUnfinished(burnId: string): boolean; all(): string[]; isUndoable(): boolean },
  remembered?: readonly string[],
): UnfinishedBurns {
  let unfinished = remembered && new Set(remembered);
  const written = new Set<string>();

  function lookedAt(ids: Set<string>): readonly string[] {
    for (const id of written) {
      if (read.isUnfinished(id)) ids.add(id);
      else ids.delete(id);
    }
    written.clear();
    return [...ids];
  }

  return {
    ids() {
      if (read.isUndoable()) return read.all();
      unfinished ??= new Set(read.all());
      return lookedAt(unfinished);
    },
    written: (burnId) => void written.add(burnId),
    known: () => unfinished && lookedAt(unfinished),
  };
}
