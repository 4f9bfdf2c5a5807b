/**
 * How often something was written about a burn since the data were opened: what was worked out from a burn may be used again as long as the
 * count is the same. In memory, since one process alone writes.
 */
import type { Gaps, Scans } from './store.ts';

export type Changes = ReturnType<typeof createChanges>;

export function createChanges() {
  const ofBurn = new Map<string, number>();
  let ofNone = 0;
  let ofDocuments = 0;
  /** @param burnId undefined for what belongs to no burn, which counts for every one: stoves, lots */
  function note(burnId: string | undefined): void {
    if (burnId === undefined) ofNone++;
    else ofBurn.set(burnId, (ofBurn.get(burnId) ?? 0) + 1);
  }

  return {
    note,
    noteDocument(burnId: string | undefined): void {
      ofDocuments++;
      note(burnId);
    },
    /** Counts the documents of all burns and of none. */
    documents: (): string => String(ofDocuments),
    of: (burnId: string): string => `${ofNone} ${ofBurn.get(burnId) ?? 0}`,
  };
}

export function notingScans(scans: Scans, { note }: Changes): Scans {
  return {
    ...scans,
    append(burnId, ...rest) {
      note(burnId);
      return scans.append(burnId, ...rest);
    },
    async appendMany(burnId, ...rest) {
      note(burnId);
      const stored = await scans.appendMany(burnId, ...rest);
      note(burnId);
      return stored;
    },
    appendBlock(burnId, ...rest) {
      note(burnId);
      scans.appendBlock(burnId, ...rest);
    },
    copyFrom(fromBurnId, burnId) {
      note(burnId);
      scans.copyFrom(fromBurnId, burnId);
    },
    move(burnId, ...rest) {
      note(burnId);
      scans.move(burnId, ...rest);
    },
  };
}

export function notingGaps(gaps: Gaps, { note }: Changes): Gaps {
  return {
    ...gaps,
    add(burnId, gap) {
      note(burnId);
      gaps.add(burnId, gap);
    },
    replace(gap, parts) {
      note(gap.burnId);
      gaps.replace(gap, parts);
    },
    rename(burnId, ...rest) {
      note(burnId);
      gaps.rename(burnId, ...rest);
    },
  };
}
