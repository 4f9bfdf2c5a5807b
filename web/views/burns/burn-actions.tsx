/** Actions on a burn as a whole: describe, weigh what is left, complete, exclude from comparisons, export, remove. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnDetail, EditBurn } from '../../../shared/contract/burns.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate } from '../../language/catalogue.ts';
import { deleteBurn } from '../../state/burns.ts';
import { editBurn, loadBurn } from '../../state/open-burn.ts';
import { go } from '../../state/route.ts';
import { line, needed } from '../forms/field-spec.ts';
import { useDraft } from '../forms/use-draft.ts';
import { useForm } from '../forms/use-form.tsx';
import { sentenceFor } from '../kit/use-load.ts';
import { Sheet } from '../sheets/sheet.tsx';
import { useOpenSheet } from '../sheets/use-open-sheet.ts';
import { BurnFiles } from './downloads.tsx';

export function BurnActions({ detail }: { detail: BurnDetail }): VNode {
  const { burn } = detail;
  const words = translate().burns.burn;
  const open = useOpenSheet(`actions.${burn.id}`);
  const problem = useSignal<string | undefined>(undefined);
  const change = async (fields: Omit<EditBurn, 'expectedVersion'>) => {
    problem.value = undefined;
    try {
      await editBurn(burn.id, { ...fields, expectedVersion: burn.version });
      open.close();
    } catch (cause) {
      problem.value = sentenceFor(cause);
      await loadBurn(burn.id).catch(() => undefined);
    }
  };
  const remove = async () => {
    try {
      await deleteBurn(burn.id);
      go({ at: 'burns' });
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  const mayRemove = burn.status === 'planned' || burn.origin === 'simulated';
  return (
    <section class="actions">
      <p class="row">
        <a class="button" href={routeHash({ at: 'describe', id: burn.id })}>
          {words.describe}
        </a>
        {(burn.status === 'ended' || burn.status === 'complete') && (
          <button type="button" onClick={() => open.show('setAside')}>
            {words.setAside}
          </button>
        )}
        {mayRemove && (
          <button type="button" onClick={() => open.show('remove')}>
            {words.remove}
          </button>
        )}
      </p>
      <BurnFiles burnId={burn.id} />
      <p class="problem" role="alert">
        {problem.value}
      </p>
      {open.which === 'setAside' && (
        <SetAside
          burnId={burn.id}
          onClose={open.close}
          onReason={(setAsideReason) => void change({ status: 'setAside', setAsideReason })}
        />
      )}
      {open.which === 'remove' && (
        <Sheet title={words.remove} onClose={open.close}>
          <p>{words.removeSure}</p>
          <p class="problem" role="alert">
            {problem.value}
          </p>
          <button type="button" class="primary" onClick={() => void remove()}>
            {words.remove}
          </button>
        </Sheet>
      )}
    </section>
  );
}

function SetAside({
  burnId,
  onReason,
  onClose,
}: {
  burnId: string;
  onReason: (reason: string) => void;
  onClose: () => void;
}): VNode {
  const words = translate().burns.burn;
  const { draft } = useDraft(`set-aside.${burnId}`, { reason: '' });
  const fields = { reason: needed(line({ label: words.setAsideReason, lines: 3 })) };
  const { field, submit } = useForm(fields, draft.value, ({ reason = '' }) => {
    draft.value = { reason };
  });
  return (
    <Sheet title={words.setAside} onClose={onClose}>
      <form onSubmit={submit(({ reason }) => onReason(reason))}>
        {field('reason')}
        <button type="submit" class="primary">
          {words.setAside}
        </button>
      </form>
    </Sheet>
  );
}
