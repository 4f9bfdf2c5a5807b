import type { VNode } from 'preact';
import { translateImport } from '../../language/catalogue.ts';
import { TroubleNote } from './trouble-note.tsx';
import type { Staged } from './use-staged.ts';

/** The buttons to save or cancel, with what prevents saving; always visible. To be used in a form. */
export function FileEnd({
  staged,
  saveLabel: save,
  problem,
}: {
  staged: Staged;
  /** Undefined when there is nothing to save. */
  saveLabel: string | undefined;
  problem?: string | undefined;
}): VNode {
  const words = translateImport();
  const { busy } = staged;
  return (
    <div class="form-end">
      <TroubleNote staged={staged} />
      <p class="problem" role="alert">
        {problem}
      </p>
      <div class="row">
        {save !== undefined && (
          <button type="submit" class="primary" disabled={busy.value === 'keeping'}>
            {busy.value === 'keeping' ? words.saving : save}
          </button>
        )}
        <button type="button" onClick={staged.cancel}>
          {save === undefined ? words.choose.another : words.choose.cancel}
        </button>
      </div>
    </div>
  );
}
