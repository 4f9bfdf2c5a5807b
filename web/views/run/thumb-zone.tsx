/** Everything the thumb needs, in the lowest fifth of the phone: three marks, undo, the rest one tap further. */
import type { VNode } from 'preact';
import type { BurnState, ShownMark } from '../../lib/burn-state.ts';
import { say } from '../../state/catalogue.ts';
import { markWords } from '../kit/mark-words.ts';

export function ThumbZone({
  state,
  lastMark,
  onFeed,
  onMark,
  onNote,
  onRead,
  onOther,
  onUndo,
  onWrapUp,
}: {
  state: BurnState;
  lastMark: ShownMark | undefined;
  onFeed: () => void;
  onMark: (kind: 'lit' | 'nudged' | 'lidOn' | 'lidOff') => void;
  onNote: () => void;
  /** Where there is something that the person reads. */
  onRead: (() => void) | undefined;
  onOther: () => void;
  onUndo: () => void;
  onWrapUp: () => void;
}): VNode {
  const words = say().thumb;
  return (
    <nav class="thumb" aria-label={words.label}>
      <div class={onRead ? 'thumb-main with-reading' : 'thumb-main'}>
        <Main state={state} onFeed={onFeed} onLit={() => onMark('lit')} onWrapUp={onWrapUp} />
        {onRead && (
          <button type="button" onClick={onRead}>
            <b>{say().hand.button}</b>
            <small>{say().hand.buttonSub}</small>
          </button>
        )}
        {state.litUs === undefined ? (
          <button type="button" onClick={onFeed}>
            <b>{words.fed}</b>
          </button>
        ) : (
          <button type="button" onClick={() => onMark('nudged')}>
            <b>{words.nudged}</b>
          </button>
        )}
        <button type="button" onClick={() => onMark(state.lidIsOn ? 'lidOff' : 'lidOn')}>
          <b>{words.lid}</b>
          <small>{state.lidIsOn ? words.lidIsOn : words.lidIsOff}</small>
        </button>
      </div>
      <div class="thumb-rest">
        <button type="button" class="undo" disabled={!lastMark} onClick={onUndo}>
          {lastMark ? say().marks.undo({ what: markWords(lastMark.mark) }) : say().marks.nothingToUndo}
        </button>
        <button type="button" onClick={onNote}>
          {words.note}
        </button>
        <button type="button" onClick={onOther}>
          {words.other}
        </button>
      </div>
    </nav>
  );
}

/** The big button is the next thing to do: light, then feed, then wrap up. */
function Main({
  state,
  onFeed,
  onLit,
  onWrapUp,
}: {
  state: BurnState;
  onFeed: () => void;
  onLit: () => void;
  onWrapUp: () => void;
}): VNode {
  const words = say().thumb;
  if (state.litUs === undefined)
    return (
      <button type="button" class="main" onClick={onLit}>
        <b>{words.lit}</b>
        <small>{words.litSub}</small>
      </button>
    );
  if (state.fireOutUs !== undefined)
    return (
      <button type="button" class="main" onClick={onWrapUp}>
        <b>{say().run.wrapUp}</b>
        <small>{say().run.wrapUpSub}</small>
      </button>
    );
  return (
    <button type="button" class="main" onClick={onFeed}>
      <b>{words.fed}</b>
      <small>{words.fedSub}</small>
    </button>
  );
}
