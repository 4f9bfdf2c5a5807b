/** Writes the firmware to a board through its boot loader, over the port selected for attaching. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { FirmwareName } from '../../../shared/contract/flashing.ts';
import { translateProbes } from '../../language/catalogue.ts';
import { call } from '../../requests/service.ts';
import { saveBoard } from '../../state/setup.ts';
import { SelectField } from '../forms/field.tsx';
import { useDraft } from '../forms/use-draft.ts';
import { sentenceFor, useLoad } from '../kit/use-load.ts';
import { boardErrorSentence } from './board-error-sentence.ts';

const LOOK_AGAIN_MS = 300;

/** @param path of the selected port; empty while none is selected */
export function PutFirmware({ path }: { path: string }): VNode | null {
  const words = translateProbes().flash;
  const loading = useLoad('flashing', () => call('GET /flashing'));
  const { draft } = useDraft<{ firmware: FirmwareName }>('flash', { firmware: 'bench-board-14' });
  /** The outcome is shown only where the run was watched. */
  const watched = useSignal(false);
  const problem = useSignal<string | undefined>(undefined);
  const now = loading.value.value;
  const phase = now && now.phase in words.phase ? words.phase[now.phase as keyof typeof words.phase] : undefined;
  const runs = phase !== undefined;
  useEffect(() => {
    if (!runs) return;
    watched.value = true;
    const timer = setInterval(loading.reload, LOOK_AGAIN_MS);
    return () => clearInterval(timer);
  }, [runs]);
  useEffect(() => {
    if (watched.value && now?.board) saveBoard(now.board);
  }, [now?.phase]);
  if (!now) return null;
  const begin = async (event: Event) => {
    event.preventDefault();
    problem.value = path === '' ? words.choosePort : undefined;
    if (path === '') return;
    try {
      loading.value.value = await call('POST /flashing', { body: { path, firmware: draft.value.firmware } });
      watched.value = true;
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  const failed = watched.value && now.problem ? boardErrorSentence(now.problem) : undefined;
  return (
    <section class="put-firmware" aria-labelledby="put-firmware-title">
      <h3 id="put-firmware-title">{words.title}</h3>
      {now.mayFlash ? (
        <form onSubmit={begin}>
          <p class="quiet">{words.help}</p>
          <SelectField
            label={words.which}
            value={draft.value.firmware}
            options={(Object.keys(words.firmware) as FirmwareName[]).map((each) => [each, words.firmware[each]])}
            onChange={(firmware) => {
              draft.value = { firmware };
            }}
          />
          <button type="submit" disabled={runs}>
            {words.button({ path: path === '' ? words.noPort : path })}
          </button>
        </form>
      ) : (
        <p class="quiet">{words.benchOnly}</p>
      )}
      {phase && (
        <p class="flash-progress">
          <label for="flash-progress">{phase}</label>
          <progress
            id="flash-progress"
            {...(now.phase !== 'connecting' && now.phase !== 'starting' && { value: now.doneBytes })}
            max={Math.max(1, now.totalBytes)}
          />
        </p>
      )}
      <p role="status">{watched.value && now.phase === 'done' && words.done}</p>
      <p class="problem" role="alert">
        {problem.value ?? failed}
      </p>
    </section>
  );
}
