/**
 * The running burns, stored on this device: so that a page opened while the service is away can take entries for them,
 * on their own clock. Without readings, and no longer than the burn runs.
 */
import { effect } from '@preact/signals';
import type { BurnDetail } from '../../shared/contract/burns.ts';
import type { ClockAnchor } from '../burn/burn-clock.ts';
import { isPaired } from '../requests/service.ts';
import { burns, runningBurns, saveSummary } from './burns.ts';
import { link } from './connection.ts';
import { currentInventory, type Inventory } from './inventory.ts';
import { burnClock, burnSignal, recallBurn } from './open-burn.ts';

interface Remembered {
  readonly burns: readonly { readonly detail: BurnDetail; readonly clock: ClockAnchor }[];
  /** For the names of wood lots. */
  readonly currentInventory?: Inventory;
}

const key = 'stovebench.running';
/** Several marks in a row are saved once. */
const gatherMs = 500;
/** A burn without an event for longer is considered over, whatever its last state. */
const longestMs = 24 * 3600 * 1000;

/** Store the running burns, and restore them when the service is away as the page opens. Call once. */
export function rememberBurns(): void {
  let writing: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    // Also cancels a pending write of an earlier state.
    clearTimeout(writing);
    if (!isPaired.value) return forget();
    if (!burns.value) return;
    const details = runningBurns.value.flatMap(({ id }) => burnSignal(id).value ?? []);
    const things = currentInventory.value;
    writing = setTimeout(() => write(details, things), gatherMs);
  });
  effect(() => {
    if (link.value === 'lost' && !burns.peek()) recall();
  });
}

function write(details: readonly BurnDetail[], things: Inventory | undefined): void {
  const known = details.flatMap((detail) => {
    const clock = burnClock(detail.burn.id);
    return clock ? [{ detail, clock }] : [];
  });
  const now: Remembered = { burns: known, ...(things && { currentInventory: things }) };
  try {
    if (known.length === 0) localStorage.removeItem(key);
    else localStorage.setItem(key, JSON.stringify(now));
  } catch {
    // No space, or forbidden: such a page needs the service to open a burn.
  }
}

function forget(): void {
  try {
    localStorage.removeItem(key);
  } catch {
    // Nothing was stored.
  }
}

function recall(): void {
  for (const { detail, clock } of read().burns) {
    if (Date.now() - clock.deviceMs > longestMs) continue;
    recallBurn(detail, clock);
    saveSummary(detail.summary);
  }
  currentInventory.value ??= read().currentInventory;
}

function read(): Remembered {
  try {
    return JSON.parse(localStorage.getItem(key) ?? '') as Remembered;
  } catch {
    return { burns: [] };
  }
}
