/** All main actions, in the lowest fifth of the phone's screen: three marks, undo, the rest one tap further. */
import type { VNode } from 'preact';
import type { BurnState, ShownMark } from '../../burn/burn-state.ts';
import { translate } from '../../language/catalogue.ts';
import { HeldButton } from './held-button.tsx';
import { UndoButton } from './undo-button.tsx';

export interface ActionButtonsProps {
  state: BurnState;
  /** Nothing is left to do except letting the fire go out. */
  isHoldDone: boolean;
  lastMark: ShownMark | undefined;
  marks: readonly ShownMark[];
  onFeed: () => void;
  onMark: (kind: 'lit' | 'nudged' | 'lidOn' | 'lidOff' | 'fireOut') => void;
  onNote: () => void;
  /** Undefined where no probe is read by a person. */
  onRead: (() => void) | undefined;
  onOther: () => void;
  onUndo: (mark: ShownMark) => void;
  onWrapUp: () => void;
}

export function ActionButtons(props: ActionButtonsProps): VNode {
  const { state, lastMark, marks, onMark, onNote, onRead, onOther, onUndo } = props;
  const words = translate().thumb;
  return (
    <nav class="thumb" aria-label={words.label}>
      <div class={onRead ? 'thumb-main with-reading' : 'thumb-main'}>
        <Main {...props} />
        {onRead && (
          <button type="button" onClick={onRead}>
            <b>{translate().hand.button}</b>
            <small>{translate().hand.buttonSub}</small>
          </button>
        )}
        <Second {...props} />
        <HeldButton act={() => onMark(state.lidIsOn ? 'lidOff' : 'lidOn')}>
          <b>{state.lidIsOn ? words.lidOff : words.lidOn}</b>
          <small>{state.lidIsOn ? words.lidIsOn : words.lidIsOff}</small>
        </HeldButton>
      </div>
      <div class="thumb-rest">
        <UndoButton mark={lastMark} marks={marks} onUndo={onUndo} />
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

/** The main button is the next action: light, then feed, then let the fire go out, then weigh what is left. */
function Main({ state, isHoldDone, onFeed, onMark, onWrapUp }: ActionButtonsProps): VNode {
  const words = translate().thumb;
  const [act, name, sub] =
    state.litUs === undefined
      ? [() => onMark('lit'), words.lit, words.litSub]
      : state.fireOutUs !== undefined
        ? [onWrapUp, translate().run.wrapUp, translate().run.wrapUpSub]
        : isHoldDone
          ? [() => onMark('fireOut'), translate().marks.names.fireOut, words.fireOutSub]
          : [onFeed, words.fed, words.fedSub];
  return (
    <HeldButton class="main" act={act}>
      <b>{name}</b>
      <small>{sub}</small>
    </HeldButton>
  );
}

/** Next to it the most frequent action: feeding, while another one is next. */
function Second({ state, isHoldDone, onFeed, onMark }: ActionButtonsProps): VNode {
  const words = translate().thumb;
  const isFeeding = state.litUs === undefined || isHoldDone;
  return (
    <HeldButton act={isFeeding ? onFeed : () => onMark('nudged')}>
      <b>{isFeeding ? words.fed : words.nudged}</b>
    </HeldButton>
  );
}
