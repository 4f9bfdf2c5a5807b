import type { VNode } from 'preact';
import type { Mark } from '../../shared/contract/marks.ts';
import type { OutboxEntry } from '../lib/outbox-store.ts';
import { say } from '../state/catalogue.ts';
import { link } from '../state/connection.ts';
import { newVersionIsHere } from '../state/new-version.ts';
import { drop, outbox, outboxIsDurable, retry } from '../state/outbox.ts';
import { shellIsKept } from '../state/shell.ts';
import { storage } from '../state/storage.ts';
import { markWords } from './kit/mark-words.ts';
import { ClockOffer } from './pair/clock-offer.tsx';

/** Says at once when the service is away, what waits on this device, and what was refused. */
export function LinkBanner(): VNode {
  const words = say().link;
  const waiting = outbox.value.filter(({ refusal }) => !refusal);
  const refused = outbox.value.filter(({ refusal }) => refusal);
  const isLost = link.value === 'lost';
  const disk = storage.value;
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
          <button type="button" onClick={() => void retry(entry)}>
            {say().again}
          </button>
          <button type="button" onClick={() => void drop(entry)}>
            {say().drop}
          </button>
        </p>
      ))}
    </div>
  );
}

/** What becomes of entries while the service is away, and whether this page may be closed meanwhile. */
function lostWords(): string {
  const words = say().link;
  if (!outboxIsDurable.value) return words.lostMemory;
  return shellIsKept.value ? words.lostKept : words.lostKeeps;
}

function entryWords({ about, body }: OutboxEntry): string {
  if (about.kind === 'mark' && body) return markWords(body as unknown as Mark);
  return say().read.burn.weighings;
}
