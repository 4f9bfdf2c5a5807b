import type { VNode } from 'preact';
import { translate } from '../../language/catalogue.ts';
import { outbox } from '../../state/outbox.ts';

/** Something just corrected, in words, with the way back. */
export interface Correction {
  /** Of the mark or the stretch. */
  readonly id: string;
  readonly words: string;
  undo(): void;
}

/** The correction made last on this page; taking it back is a correction on record like any other. */
export function LastChange({ correction, onGone }: { correction: Correction | undefined; onGone: () => void }): VNode {
  const undo = () => {
    correction?.undo();
    onGone();
  };
  const entry = correction && outbox.value.find(({ about }) => about.id === correction.id);
  return (
    <p class="last-change" role="status">
      {correction && !entry?.refusal && (
        <>
          <span>
            {correction.words}
            {entry && ` (${translate().marks.waiting})`}
          </span>{' '}
          <button type="button" onClick={undo}>
            {translate().burns.burn.undoThis}
          </button>
        </>
      )}
    </p>
  );
}
