/**
 * The burns that run, remembered on this device: so that a page opened while the service is away can take entries for them, on
 * their own clock. No readings, and no longer than the burn runs.
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
/** Several marks in a row are written down once. */
const gatherMs = 500;
/** A burn not heard of for longer is over, whatever was known of it. */
const longestMs = 24 * 3600 * 1000;

/** Remember what runs, and bring it back when the service is away as the page opens. Call once. */
export function rememberBurns(): void {
  let writing: ReturnType<typeof setTimeout> | undefined;
  effect(() => {
    // Also what is still to be written of the time before.
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
    // No room, or forbidden: such a page needs the service to open a burn.
  }
}

function forget(): void {
  try {
    localStorage.removeItem(key);
  } catch {
    // Nothing was kept.
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
