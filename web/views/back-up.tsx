/** Requests a backup from the page. It is stored on the machine of the service, which chooses the folder. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { Backup } from '../../shared/contract/backups.ts';
import { translateSettings } from '../language/catalogue.ts';
import { clock } from '../language/figures.ts';
import { call } from '../requests/service.ts';
import { sentenceFor } from './kit/use-load.ts';

/** Every burn of the copy is verified: minutes on a small single-board computer. */
const LONGEST_MS = 600_000;

export function BackUp(): VNode {
  const words = translateSettings();
  const isWorking = useSignal(false);
  const made = useSignal<Backup | undefined>(undefined);
  const problem = useSignal<string | undefined>(undefined);
  const backUp = async () => {
    isWorking.value = true;
    made.value = undefined;
    problem.value = undefined;
    try {
      made.value = await call('POST /backups', { timeoutMs: LONGEST_MS });
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
    isWorking.value = false;
  };
  return (
    <section class="back-up">
      <h2>{words.data}</h2>
      <p class="row">
        <a class="button" href="#/bring-in">
          {words.imports}
        </a>
        <button type="button" disabled={isWorking.value} onClick={() => void backUp()}>
          {words.backUp}
        </button>
      </p>
      <div role="status">
        {isWorking.value && <p class="quiet">{words.backingUp}</p>}
        {!isWorking.value && !made.value && <p class="quiet">{words.backUpHelp}</p>}
        {made.value && (
          <>
            <p>
              {words.backedUp({ burns: made.value.burns, time: clock(made.value.madeAtUtcMs) })}{' '}
              <code>{made.value.folder}</code>
            </p>
            <p class="quiet">{words.backedUpElsewhere}</p>
          </>
        )}
      </div>
      <p class="problem" role="alert">
        {problem.value}
      </p>
    </section>
  );
}
