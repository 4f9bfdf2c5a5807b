/**
 * The states of waiting entries as they are created, sent and answered. Pure: all tabs of a device share one list, so
 * each step is computed from the list as it is in the store.
 */
import type { Problem } from '../../shared/contract/problem.ts';
import { afterSent, type Entry, isAbout, madeFrom, merged } from './entries.ts';
import type { OutboxEntry } from './store.ts';

type Entries = readonly OutboxEntry[];

/** While the service does not answer, waiting entries are sent again at this interval. */
export const RETRY_EVERY_MS = 3000;
/** The time limit of a request with a margin, ms: a tab that has held an entry for longer was closed. */
const heldForMs = 25_000;

/**
 * The list with one entry added. It is merged with a waiting entry about the same thing, unless the service may already
 * have received that.
 * @param isStored whether an entry requests exactly what the service has
 * @returns the position that it took over, if not its own; `isGone` when nothing is left to send
 */
export function queued(
  entries: Entries,
  next: Entry,
  { nowMs, isStored }: { nowMs: number; isStored: (entry: Entry) => boolean },
): { entries: Entries; seq?: number | undefined; isGone?: true } {
  const same = entries.filter((entry) => isAbout(entry, next.about.kind, next.about.id));
  const earlier = same.find(({ wasSent }) => !wasSent);
  if (!earlier) {
    const sent = same.at(-1);
    const entry = sent ? afterSent(next, sent) : madeFrom(next, Math.max(1, next.from ?? 0));
    return { entries: [...entries, { ...entry, queuedDeviceMs: nowMs }] };
  }
  // A refused entry is replaced by its correction, which was based on what is shown now.
  const whole = merged(earlier, next, earlier.refusal ? next.from : earlier.from);
  if (!whole || isStored(whole)) return { entries: entries.filter((entry) => entry !== earlier), isGone: true };
  const joined = { ...whole, seq: earlier.seq!, queuedDeviceMs: nowMs };
  return { entries: entries.map((entry) => (entry === earlier ? joined : entry)), seq: earlier.seq };
}

/** The first waiting entry, claimed for a tab that wants to send it; none while another tab is sending it. */
export function claimed(entries: Entries, tab: string, nowMs: number): { entries: Entries; entry?: OutboxEntry } {
  const first = entries.find(({ refusal }) => !refusal);
  if (!first || isHeldElsewhere(first, tab, nowMs)) return { entries };
  const entry = { ...first, wasSent: true as const, heldBy: { tab, untilMs: nowMs + heldForMs } };
  return { entries: entries.map((each) => (each === first ? entry : each)), entry };
}

/** The service has confirmed it. */
export function delivered(entries: Entries, sent: OutboxEntry): Entries {
  return entries.filter((entry) => !isStill(entry, sent));
}

/** No answer was received: the next tab to claim it sends it again. */
export function unanswered(entries: Entries, sent: OutboxEntry): Entries {
  return entries.map((entry) => {
    if (!isStill(entry, sent)) return entry;
    const { heldBy: _, ...waiting } = entry;
    return waiting;
  });
}

/** A later entry about the same thing was made before the refusal was known: it replaces both. */
export function refused(entries: Entries, sent: OutboxEntry, refusal: Problem): Entries {
  const { heldBy: _, wasSent: __, ...answered } = sent;
  const later = entries.find(
    (other) => other.seq !== sent.seq && isAbout(other, sent.about.kind, sent.about.id) && !other.refusal,
  );
  if (!later) return entries.map((entry) => (isStill(entry, sent) ? { ...answered, refusal } : entry));
  const whole = merged(answered, later, sent.from);
  const place = { seq: later.seq!, queuedDeviceMs: later.queuedDeviceMs };
  return delivered(entries, sent).flatMap((entry) =>
    entry !== later ? [entry] : whole ? [{ ...whole, ...place }] : [],
  );
}

/** Marks a refused entry to be sent again unchanged. */
export function triedAgain(entries: Entries, { seq }: OutboxEntry): Entries {
  return entries.map((entry) => {
    if (entry.seq !== seq) return entry;
    const { refusal: _, ...again } = entry;
    return again;
  });
}

/** The clock of the device may have been set back meanwhile. */
function isHeldElsewhere({ heldBy }: OutboxEntry, tab: string, nowMs: number): boolean {
  return heldBy !== undefined && heldBy.tab !== tab && heldBy.untilMs > nowMs && heldBy.untilMs <= nowMs + heldForMs;
}

/** Whether an entry is the one that was sent, and has not been claimed by another tab since. */
function isStill({ seq, heldBy }: OutboxEntry, sent: OutboxEntry): boolean {
  return seq === sent.seq && heldBy?.tab === sent.heldBy?.tab && heldBy?.untilMs === sent.heldBy?.untilMs;
}
