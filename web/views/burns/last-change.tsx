import type { VNode } from 'preact';
import { translate } from '../../language/catalogue.ts';
import { outbox } from '../../state/outbox.ts';

/** A correction just made, in words, with its undo. */
export interface Correction {
  /** Of the mark or the stretch. */
  readonly id: string;
  readonly words: string;
  undo(): void;
}

/** The last correction made on this page; undoing it is a recorded correction like any other. */
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
