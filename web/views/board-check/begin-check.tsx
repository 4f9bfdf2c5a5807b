/** Chooses the port to be checked, and starts the check. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { USUAL_BAUD_RATE } from '../../../shared/contract/usual-baud-rate.ts';
import { translate, translateBoardCheck, translateProbes } from '../../language/catalogue.ts';
import { TextField } from '../forms/field.tsx';
import { useDraft } from '../forms/use-draft.ts';

export function BeginCheck({
  path,
  baudRate = String(USUAL_BAUD_RATE),
  onBegin,
}: {
  path: string | undefined;
  baudRate: string | undefined;
  onBegin: (path: string, baudRate: number) => void;
}): VNode {
  const words = translateBoardCheck();
  const { draft } = useDraft(`boardCheck.${path ?? ''}`, { path: path ?? '', baudRate });
  const wrong = useSignal<{ path?: string; baudRate?: string }>({});
  const begin = (event: Event) => {
    event.preventDefault();
    const asked = draft.value.path.trim();
    const rate = Number(draft.value.baudRate.trim());
    const isRate = Number.isInteger(rate) && rate > 0;
    wrong.value = {
      ...(asked === '' && { path: translate().describe.number.text }),
      ...(!isRate && { baudRate: words.rateHelp }),
    };
    if (asked !== '' && isRate) onBegin(asked, rate);
  };
  return (
    <form class="begin-check" onSubmit={begin}>
      <div class="row-form">
        <TextField
          label={translateProbes().path}
          hint={translateProbes().pathHelp}
          value={draft.value.path}
          problem={wrong.value.path}
          onInput={(typed) => {
            draft.value = { ...draft.value, path: typed };
          }}
        />
        <TextField
          decimal
          label={translateProbes().speed}
          unit="Bd"
          value={draft.value.baudRate}
          problem={wrong.value.baudRate}
          onInput={(typed) => {
            draft.value = { ...draft.value, baudRate: typed };
          }}
        />
      </div>
      <button type="submit" class="primary">
        {words.begin}
      </button>
    </form>
  );
}
