import type { VNode } from 'preact';
import { sayBringIn } from '../../state/catalogue.ts';
import { TroubleNote } from './trouble-note.tsx';
import type { Staged } from './use-staged.ts';

/** Keep or cancel, with what stands in the way. Belongs into a form. */
export function FileEnd({
  staged,
  keep,
  problem,
}: {
  staged: Staged;
  keep: string;
  problem: string | undefined;
}): VNode {
  return (
    <>
      <TroubleNote staged={staged} />
      <p class="problem" role="alert">
        {problem}
      </p>
      <div class="form-end row">
        <button type="submit" class="primary" disabled={staged.busy.value === 'keeping'}>
          {keep}
        </button>
        <button type="button" onClick={staged.cancel}>
          {sayBringIn().choose.cancel}
        </button>
      </div>
    </>
  );
}
