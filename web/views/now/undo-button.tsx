import type { VNode } from 'preact';
import { useEffect, useReducer, useRef } from 'preact/hooks';
import type { ShownMark } from '../../burn/burn-state.ts';
import { translate } from '../../language/catalogue.ts';
import { isMadeHere } from '../../state/mark-order.ts';
import { markWords } from '../marks/mark-words.ts';
import { HeldButton, type Pressed } from './held-button.tsx';

/** Shorter than it takes to read a button and press it. */
const READING_MS = 500;

/**
 * Withdraws the mark that it names. When another phone changes that mark just before the thumb comes down, the one that
 * was read is meant: it is withdrawn if it still exists, otherwise nothing is.
 */
export function UndoButton({
  mark,
  marks,
  onUndo,
}: {
  mark: ShownMark | undefined;
  marks: readonly ShownMark[];
  onUndo: (mark: ShownMark) => void;
}): VNode {
  const shown = useRef<{ mark: ShownMark | undefined; before: ShownMark | undefined; untilMs: number }>({
    mark,
    before: undefined,
    untilMs: 0,
  });
  const [, renderAgain] = useReducer((times: number) => times + 1, 0);
  const undoneHere = useRef(new Set<string>());
  const known = shown.current;
  if (known.mark?.mark.id !== mark?.mark.id) {
    const isByOthers = !(mark && isMadeHere(mark.mark.id)) && !undoneHere.current.has(known.mark?.mark.id ?? '');
    shown.current = { mark, before: known.mark, untilMs: isByOthers ? performance.now() + READING_MS : 0 };
  }
  const { untilMs } = shown.current;
  const isFresh = performance.now() < untilMs;
  useEffect(() => {
    if (!isFresh) return undefined;
    const timer = setTimeout(() => renderAgain(undefined), untilMs - performance.now());
    return () => clearTimeout(timer);
  }, [isFresh, untilMs]);
  const undo = (meant: ShownMark) => {
    undoneHere.current.add(meant.mark.id);
    onUndo(meant);
  };
  const earlier = (): Pressed | undefined => {
    const { before } = shown.current;
    if (!before || performance.now() > untilMs) return undefined;
    const still = marks.find((each) => each.mark.id === before.mark.id);
    return { act: () => still && undo(still), children: words(before) };
  };
  return (
    <HeldButton
      class="undo"
      data-renamed={isFresh || undefined}
      disabled={!mark}
      act={() => mark && undo(mark)}
      earlier={earlier}
    >
      {mark ? words(mark) : translate().marks.nothingToUndo}
    </HeldButton>
  );
}

function words({ mark }: ShownMark): string {
  return translate().marks.undo({ what: markWords(mark) });
}
