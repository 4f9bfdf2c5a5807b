import type { VNode } from 'preact';
import type { Mark } from '../../shared/contract/marks.ts';
import { translate } from '../language/catalogue.ts';
import { thingIn } from '../outbox/entries.ts';
import type { OutboxEntry } from '../outbox/store.ts';
import { runningBurns } from '../state/burns.ts';
import { link } from '../state/connection.ts';
import { diskState } from '../state/disk.ts';
import { newVersionIsHere } from '../state/new-version.ts';
import { isInstalled } from '../state/offline-page.ts';
import { burnSignal } from '../state/open-burn.ts';
import { drop, outbox, outboxIsDurable, refusedEntry, retry } from '../state/outbox.ts';
import { go, route } from '../state/route.ts';
import { markWords } from './marks/mark-words.ts';
import { ClockOffer } from './pairing/clock-offer.tsx';

/** Shows at once when the service is away, what waits on this device, and what was refused. */
export function LinkBanner(): VNode {
  const words = translate().link;
  const waiting = outbox.value.filter(({ refusal }) => !refusal);
  const refused = outbox.value.filter((entry) => entry.refusal && !isOnScreen(entry));
  const isLost = link.value === 'lost';
  const disk = diskState.value;
  return (
    <div class="banners" role="status">
      {(isLost || waiting.length > 0) && (
        <p class={isLost ? 'banner lost' : 'banner'}>
          <span>{isLost ? lostWords() : words.delivering}</span>
          {waiting.length > 0 && <b>{words.waiting({ count: waiting.length })}</b>}
        </p>
      )}
      {disk.problem && (
        <p class="banner lost">
          <span>{disk.problem.code === 'store/full' ? words.diskFull : words.diskFails}</span>
          <b>{words.scansWait({ count: disk.waitingScans })}</b>
          {disk.lostScans > 0 && <b>{words.scansLost({ count: disk.lostScans })}</b>}
        </p>
      )}
      {newVersionIsHere.value && waiting.length === 0 && (
        <p class="banner">
          <span>{words.newVersion}</span>
          <button type="button" onClick={() => location.reload()}>
            {words.reload}
          </button>
        </p>
      )}
      <ClockOffer />
      {refused.map((entry) => (
        <p class="banner refused" key={entry.seq}>
          <span>{words.refused({ what: entryWords(entry), why: entry.refusal?.message ?? '' })}</span>
          <button type="button" onClick={() => lookAt(entry)}>
            {words.lookAt}
          </button>
          <button type="button" onClick={() => void retry(entry)}>
            {translate().again}
          </button>
          <button type="button" onClick={() => void drop(entry)}>
            {translate().drop}
          </button>
        </p>
      ))}
    </div>
  );
}

/** What happens to entries while the service is away, and whether this page may be closed meanwhile. */
function lostWords(): string {
  const words = translate().link;
  if (!outboxIsDurable.value) return words.lostMemory;
  return isInstalled.value ? words.lostStored : words.lostContinues;
}

/** The sheet of a weigh-up shows its own refusals. */
function isOnScreen({ about, burnId }: OutboxEntry): boolean {
  const here = route.value;
  return about.kind === 'weighUp' && here.at === 'wrapUp' && here.id === burnId;
}

/** Shows a refused entry where it was typed. */
function lookAt(entry: OutboxEntry): void {
  const { burnId: id, about } = entry;
  const runs = runningBurns.value.some((burn) => burn.id === id);
  refusedEntry.value = entry;
  go(
    about.kind === 'weighUp'
      ? { at: 'wrapUp', id }
      : about.kind === 'mark' && runs
        ? { at: 'run', id }
        : { at: 'burn', id },
  );
}

function entryWords(entry: OutboxEntry): string {
  const { about, burnId } = entry;
  if (about.kind === 'weighUp') return translate().burns.wrap.title;
  if (about.kind === 'exclusion') return translate().burns.leaveOut.title;
  const known = burnSignal(burnId).value?.marks.find(({ mark }) => mark.id === about.id)?.mark;
  const mark = entry.method === 'DELETE' ? known : (thingIn(entry) as Mark);
  return mark ? markWords(mark) : translate().marks.log;
}
