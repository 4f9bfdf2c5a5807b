/** Calls for the person: on the screen until seen, and aloud once. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { Call, Estimate } from '../../../shared/contract/api.ts';
import { calls as allCalls } from '../../state/calls.ts';
import { say } from '../../state/catalogue.ts';
import { chime } from '../../state/chime.ts';
import { duration, text } from '../../state/figures.ts';

export function Calls({ burnId, estimate }: { burnId: string; estimate: Estimate | undefined }): VNode {
  const seen = useSignal<ReadonlySet<string>>(new Set());
  const calls = allCalls.value.get(burnId) ?? [];
  const ids = calls.map(({ id }) => id).join('|');
  useEffect(() => {
    if (ids.split('|').some((id) => id !== '' && !seen.peek().has(id))) chime();
    // sounded when a call comes, not at every estimate; one that comes again has another id
  }, [ids]);
  const open = calls.filter(({ id }) => !seen.value.has(id));
  return (
    <div class="calls" role="status">
      {open.map((call) => (
        <p class={`call ${call.kind}`} key={call.id}>
          <span>{callWords(call, estimate)}</span>
          <button
            type="button"
            onClick={() => {
              seen.value = new Set([...seen.value, call.id]);
            }}
          >
            {say().calls.hush}
          </button>
        </p>
      ))}
    </div>
  );
}

/** The figures of now, where there are any: those of the call are as old as the call. */
function callWords(call: Call, estimate: Estimate | undefined): string {
  const words = say().calls;
  switch (call.kind) {
    case 'boardGone':
      return words.boardGone({ name: call.subject });
    case 'probe':
      return words.probe({ name: call.subject, fault: say().faults[call.fault] });
    case 'holdLow':
      return words.holdLow({ floor: text('temperature', call.floorTempC) });
    case 'needsWood':
      return words.needsWood({ time: duration(estimate?.sinceAttentionS ?? call.sinceS) });
    case 'readingDue':
      return readingDue(call.sinceS, estimate);
    case 'nearlyThere':
      return words.nearlyThere({ time: duration(estimate?.toTargetS?.value ?? call.leftS) });
    default:
      return words[call.kind];
  }
}

function readingDue(sinceS: number, estimate: Estimate | undefined): string {
  if (!estimate) return say().calls.readingDue({ time: duration(sinceS) });
  const { waterReadUs, elapsedUs } = estimate;
  if (waterReadUs === undefined) return say().hand.firstDue;
  return say().calls.readingDue({ time: duration((elapsedUs - waterReadUs) / 1e6) });
}
