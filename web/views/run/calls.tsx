/** Calls for the person: on the screen until seen, and aloud once. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { BurnDetail, Estimate } from '../../../shared/contract/api.ts';
import type { BurnState } from '../../lib/burn-state.ts';
import { type Call, callKey, callsFor } from '../../lib/calls.ts';
import { boards, latest } from '../../state/bench.ts';
import { say } from '../../state/catalogue.ts';
import { chime } from '../../state/chime.ts';
import { duration, text } from '../../state/figures.ts';

export function Calls({
  detail,
  estimate,
  state,
}: {
  detail: BurnDetail;
  estimate: Estimate | undefined;
  state: BurnState;
}): VNode {
  const seen = useSignal<ReadonlySet<string>>(new Set());
  const channels = detail.burn.channels;
  const calls = callsFor({
    estimate,
    isLit: state.litUs !== undefined,
    fireIsOut: state.fireOutUs !== undefined,
    goneBoards: [...new Set(channels.map(({ boardId }) => boardId))].flatMap((id) => {
      const board = boards.value.find((known) => known.id === id);
      return id !== undefined && board && (board.state === 'lost' || board.state === 'silent')
        ? [board.name ?? board.path]
        : [];
    }),
    faultyProbes: channels.flatMap(({ id, name }) => {
      const fault = latest.value.get(id)?.fault;
      return fault ? [{ name, fault }] : [];
    }),
  });
  const keys = calls.map(callKey).join('|');
  useEffect(() => {
    const inForce = new Set(keys.split('|'));
    // A call that went away may come again and must then be heard again.
    seen.value = new Set([...seen.peek()].filter((key) => inForce.has(key)));
    if (calls.some((call) => !seen.peek().has(callKey(call)))) chime();
    // sounded when the set of calls changes, not at every estimate
  }, [keys]);
  const open = calls.filter((call) => !seen.value.has(callKey(call)));
  return (
    <div class="calls" role="status">
      {open.map((call) => (
        <p class={`call ${call.kind}`} key={callKey(call)}>
          <span>{callWords(call)}</span>
          <button
            type="button"
            onClick={() => {
              seen.value = new Set([...seen.value, callKey(call)]);
            }}
          >
            {say().calls.hush}
          </button>
        </p>
      ))}
    </div>
  );
}

function callWords(call: Call): string {
  const words = say().calls;
  switch (call.kind) {
    case 'boardGone':
      return words.boardGone({ name: call.subject });
    case 'probe':
      return words.probe({ name: call.subject, fault: say().faults[call.fault] });
    case 'holdLow':
      return words.holdLow({ floor: text('temperature', call.floorTempC) });
    case 'needsWood':
      return words.needsWood({ time: duration(call.sinceS) });
    case 'nearlyThere':
      return words.nearlyThere({ time: duration(call.leftS) });
    default:
      return words[call.kind];
  }
}
