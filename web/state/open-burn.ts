/** Burns opened on this page, in full and updated from the stream; and the clock of each. */
import { type Signal, signal } from '@preact/signals';
import type { Channel } from '../../shared/contract/burn-record.ts';
import type { BurnDetail, EditBurn } from '../../shared/contract/burns.ts';
import type { VersionedExclusion, VersionedMark, VersionedWeighing } from '../../shared/contract/entries.ts';
import { type ClockAnchor, elapsedUsAt } from '../burn/burn-clock.ts';
import { call, health, timeScale } from '../requests/service.ts';
import { saveSummary } from './burns.ts';
import { onLive } from './connection.ts';
import { noteMark } from './mark-order.ts';

const opened = new Map<string, Signal<BurnDetail | undefined>>();
const anchors = new Map<string, ClockAnchor>();

type Change = (detail: BurnDetail) => BurnDetail;
/** Requests in progress, in the order in which they were sent, and the changes received for their burns meanwhile. */
const awaited = new Set<{ readonly burnId: string; readonly changes: Change[]; isOvertaken: boolean }>();

/** The burn as loaded here; undefined until then. */
export function burnSignal(id: string): Signal<BurnDetail | undefined> {
  const known = opened.get(id) ?? signal<BurnDetail | undefined>(undefined);
  opened.set(id, known);
  return known;
}

/** Load (again) a burn from the service. */
export async function loadBurn(id: string): Promise<BurnDetail> {
  return saveResponse(id, call('GET /burns/:id', { params: { id } }));
}

/** Change fields of a burn, based on the version that was read. Throws Refusal on a conflict. */
export async function editBurn(id: string, change: EditBurn): Promise<BurnDetail> {
  return saveResponse(id, call('PATCH /burns/:id', { params: { id }, body: change }));
}

/**
 * Store the answer of the service. It may have been made before the changes received while it was on its way, which are
 * therefore applied again; an answer that arrives after one requested later is ignored.
 */
export async function saveResponse(burnId: string, answer: Promise<BurnDetail>): Promise<BurnDetail> {
  const own = { burnId, changes: [] as Change[], isOvertaken: false };
  awaited.add(own);
  try {
    const detail = await answer;
    if (own.isOvertaken) return burnSignal(burnId).value ?? detail;
    for (const earlier of awaited) {
      if (earlier === own) break;
      if (earlier.burnId === burnId) earlier.isOvertaken = true;
    }
    return saveDetail(own.changes.reduce((known, by) => by(known), detail));
  } finally {
    awaited.delete(own);
  }
}

export function saveDetail(detail: BurnDetail): BurnDetail {
  burnSignal(detail.burn.id).value = detail;
  saveSummary(detail.summary);
  if (detail.elapsedUs !== undefined) anchor(detail.burn.id, detail.elapsedUs);
  return detail;
}

export function saveMark(burnId: string, stored: VersionedMark): void {
  if (!opened.get(burnId)?.value?.marks.some(({ mark }) => mark.id === stored.mark.id)) noteMark(stored.mark.id);
  change(burnId, (detail) => ({ ...detail, marks: upsert(detail.marks, stored, ({ mark }) => mark.id) }));
}

export function saveWeighing(burnId: string, stored: VersionedWeighing): void {
  change(burnId, (detail) => ({
    ...detail,
    weighings: upsert(detail.weighings, stored, ({ weighing }) => weighing.id),
  }));
}

export function saveExclusion(burnId: string, stored: VersionedExclusion): void {
  change(burnId, (detail) => ({
    ...detail,
    exclusions: upsert(detail.exclusions, stored, ({ exclusion }) => exclusion.id),
  }));
}

/** A probe of any burn opened here. */
export function channelOf(channelId: string): Channel | undefined {
  for (const { value } of opened.values()) {
    const found = value?.burn.channels.find(({ id }) => id === channelId);
    if (found) return found;
  }
  return undefined;
}

/** Now on the burn's clock, in microseconds; undefined when this page never received its time. */
export function burnNowUs(id: string): number | undefined {
  const known = anchors.get(id);
  // The time scale may have been received later than the elapsed time.
  return known && elapsedUsAt({ ...known, timeScale: health.value?.timeScale ?? known.timeScale }, Date.now());
}

/** The clock of a burn on this page. */
export function burnClock(id: string): ClockAnchor | undefined {
  return anchors.get(id);
}

/** A burn as stored by an earlier page, until the service sends its present state. */
export function recallBurn(detail: BurnDetail, clock: ClockAnchor): void {
  anchors.set(detail.burn.id, clock);
  burnSignal(detail.burn.id).value ??= detail;
}

/** Subscribe to the stream. Call once, before the connection starts. */
export function followOpenBurns(): void {
  onLive('mark', ({ burnId, mark }) => saveMark(burnId, mark));
  onLive('weighing', ({ burnId, weighing }) => saveWeighing(burnId, weighing));
  onLive('exclusion', ({ burnId, exclusion }) => saveExclusion(burnId, exclusion));
  onLive('gaps', ({ burnId, gaps, repairs }) => {
    const wasFetching = (opened.get(burnId)?.value?.repairs.length ?? 0) > 0;
    change(burnId, (detail) => ({ ...detail, gaps, repairs }));
    // Whether all scans have arrived is computed once no more are being fetched.
    if (wasFetching && repairs.length === 0) void refresh(burnId);
  });
  onLive('burn', ({ burn: summary }) => {
    const detail = opened.get(summary.id)?.value;
    if (!detail) return;
    // Another screen changed the description: only a fresh copy contains the version that an edit needs.
    if (detail.burn.status !== summary.status || detail.burn.title !== summary.title) void refresh(summary.id);
    else change(summary.id, (known) => ({ ...known, summary }));
  });
  onLive('scan', ({ burnId, elapsedUs }) => {
    if (burnId !== undefined && elapsedUs !== undefined) anchor(burnId, elapsedUs);
  });
  onLive('estimate', ({ estimate: { burnId, elapsedUs } }) => {
    // An estimate after a mark, while no board sends anything, is as old as the last scan.
    if (elapsedUs > (anchors.get(burnId)?.elapsedUs ?? 0)) anchor(burnId, elapsedUs);
  });
  onLive('snapshot', () => {
    for (const [id, known] of opened) if (known.value) void refresh(id);
  });
}

async function refresh(id: string): Promise<void> {
  await loadBurn(id).catch(() => undefined);
}

function anchor(id: string, elapsedUs: number): void {
  anchors.set(id, { elapsedUs, deviceMs: Date.now(), timeScale: timeScale() });
}

function change(id: string, by: Change): void {
  for (const { burnId, changes } of awaited) if (burnId === id) changes.push(by);
  const known = opened.get(id);
  if (known?.value) known.value = by(known.value);
}

function upsert<T extends { version: number }>(list: readonly T[], item: T, idOf: (item: T) => string): T[] {
  const index = list.findIndex((known) => idOf(known) === idOf(item));
  const known = list[index];
  if (!known) return [...list, item];
  // The stream and the answer to our own request may arrive in either order.
  return known.version > item.version ? [...list] : list.map((entry, at) => (at === index ? item : entry));
}
