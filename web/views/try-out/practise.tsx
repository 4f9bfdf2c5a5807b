/** Starts a practice: a burn on a simulated stove, begun in one tap, at a speed of the person's choice. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { practiceSpeeds } from '../../../shared/contract/practice-speeds.ts';
import { translateTryOut } from '../../language/catalogue.ts';
import { health } from '../../requests/service.ts';
import { loadBurns, runningBurns } from '../../state/burns.ts';
import { beginPractice, practice } from '../../state/practice.ts';
import { go } from '../../state/route.ts';
import { boards } from '../../state/setup.ts';
import { Choice } from '../forms/field.tsx';
import { sentenceFor } from '../kit/use-load.ts';

const speeds = practiceSpeeds.map(String);
const USUAL = '10';

/** Whether a practice can begin now: nothing burns, and no real board is attached. */
export function mayPractise(): boolean {
  return (
    health.value?.simulatorAvailable === true &&
    runningBurns.value.length === 0 &&
    boards.value.every(({ simulated }) => simulated)
  );
}

export function Practise(): VNode {
  const words = translateTryOut();
  const speed = useSignal(USUAL);
  const isBeginning = useSignal(false);
  const problem = useSignal<string | undefined>(undefined);
  const begin = async () => {
    isBeginning.value = true;
    problem.value = undefined;
    try {
      await beginPractice(practiceSpeeds.find((each) => String(each) === speed.value) ?? 1);
      await loadBurns();
      const id = practice.value?.burnId;
      if (id !== undefined) go({ at: 'run', id });
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
    isBeginning.value = false;
  };
  return (
    <div class="practise">
      <p>{words.practiseWhat}</p>
      <Choice
        label={words.speed}
        value={speed.value}
        onChange={(value) => {
          speed.value = value;
        }}
        options={speeds.map((each) => [each, each === '1' ? words.realTime : words.faster({ times: each })])}
      />
      <button type="button" disabled={isBeginning.value} onClick={() => void begin()}>
        {words.practise}
      </button>
      <p class="problem" role="alert">
        {problem.value}
      </p>
    </div>
  );
}
