/** A simulated board and sample burns, for a person with nothing to measure yet; and how to remove them. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { translateTryOut } from '../../language/catalogue.ts';
import { call, health } from '../../requests/service.ts';
import { loadBurns } from '../../state/burns.ts';
import { boards, saveBoard } from '../../state/setup.ts';
import { sentenceFor, useLoad } from '../kit/use-load.ts';
import { mayPractise, Practise } from './practise.tsx';

/** Eight burns are simulated on request: seconds on a laptop, a minute on a small single-board computer. */
const LONGEST_MS = 120_000;

export function TryOut(): VNode | null {
  const words = translateTryOut();
  const samples = useLoad('samples', () => call('GET /samples'));
  const isWorking = useSignal(false);
  const problem = useSignal<string | undefined>(undefined);
  if (!health.value?.simulatorAvailable) return null;
  const hasBoard = boards.value.some(({ path }) => path.endsWith('simulated-board'));
  const hasBurns = (samples.value.value?.kept ?? 0) > 0;
  const act = async (work: () => Promise<void>) => {
    isWorking.value = true;
    problem.value = undefined;
    try {
      await work();
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
    isWorking.value = false;
    samples.reload();
  };
  const setBoard = () =>
    act(async () => {
      if (hasBoard) await call('DELETE /simulated-board');
      else saveBoard(await call('POST /simulated-board'));
    });
  const setBurns = () =>
    act(async () => {
      await call(hasBurns ? 'DELETE /samples' : 'POST /samples', { timeoutMs: LONGEST_MS });
      await loadBurns();
    });
  return (
    <section class="try-out">
      {mayPractise() && (
        <>
          <h2>{words.practiseTitle}</h2>
          <Practise />
        </>
      )}
      <h2>{words.title}</h2>
      <p>{words.what}</p>
      <p class="row">
        <button type="button" disabled={isWorking.value} onClick={() => void setBoard()}>
          {hasBoard ? words.removeBoard : words.addBoard}
        </button>
        <button type="button" disabled={isWorking.value} onClick={() => void setBurns()}>
          {hasBurns ? words.removeBurns : words.addBurns}
        </button>
      </p>
      <p class="quiet" role="status">
        {isWorking.value && words.working}
      </p>
      <p class="problem" role="alert">
        {problem.value}
      </p>
    </section>
  );
}

/** A practice alone, folded where the screen has other content. */
export function FoldedPractice(): VNode | null {
  if (!mayPractise()) return null;
  return (
    <details>
      <summary>{translateTryOut().practiseTitle}</summary>
      <Practise />
    </details>
  );
}
