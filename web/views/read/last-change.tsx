import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { say } from '../../state/catalogue.ts';
import { sentenceFor } from '../kit/use-load.ts';

/** Something just corrected, in words, with the way back. */
export interface Correction {
  readonly words: string;
  undo(): Promise<unknown>;
}

/** The correction made last on this page; taking it back is a correction on record like any other. */
export function LastChange({ correction, onGone }: { correction: Correction | undefined; onGone: () => void }): VNode {
  const problem = useSignal<string | undefined>(undefined);
  const undo = async () => {
    try {
      await correction?.undo();
      problem.value = undefined;
      onGone();
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  return (
    <p class="last-change" role="status">
      {correction && (
        <>
          <span>{correction.words}</span>{' '}
          <button type="button" onClick={() => void undo()}>
            {say().read.burn.undoThis}
          </button>
        </>
      )}
      {problem.value && <span class="problem">{problem.value}</span>}
    </p>
  );
}
