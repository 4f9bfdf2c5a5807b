/** What an unfinished burn still needs: one line and one button each, with the results that it makes available. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { Analysis } from '../../../shared/contract/results.ts';
import { type Route, routeHash } from '../../addresses/router.ts';
import { translate, translateResult } from '../../language/catalogue.ts';
import { editBurn } from '../../state/open-burn.ts';
import { shownWeighings } from '../../state/shown-entries.ts';
import { resultName } from '../kit/result-words.ts';
import { sentenceFor } from '../kit/use-load.ts';
import { type Aim, headlineIds } from './headline.tsx';
import { type NextStep, nextSteps, outcomesOf, type StepKind } from './next-steps.ts';

/** Up to this many results are named; more are counted. */
const MOST_NAMED = 4;

export function ToDo({ detail, analysis }: { detail: BurnDetail; analysis: Analysis }): VNode | null {
  const { burn } = detail;
  const words = translate().burns.toDo;
  const steps = nextSteps(analysis);
  const outcomes = outcomesOf(analysis);
  const isPending = shownWeighings(detail).some(({ thing }) => thing.pending);
  const mayComplete = burn.status === 'ended' && !isPending;
  const isReady = mayComplete && !steps.some(({ kind }) => kind === 'weigh');
  if (steps.length + outcomes.length === 0 && !isReady) return null;
  return (
    <section class="to-do" aria-labelledby="to-do-title">
      {outcomes.map((message) => (
        <p key={message.code} class="outcome">
          {translateResult().missing(message)}
        </p>
      ))}
      {(steps.length > 0 || isReady) && (
        <>
          <h2 id="to-do-title">{words.title}</h2>
          <ol>
            {steps.map((step) => (
              <li key={step.kind}>
                <p>
                  {step.kind === 'weigh' ? words.weigh : step.reasons.map(translateResult().missing).join(' ')}{' '}
                  <span class="quiet">{outcomeText(step, burn)}</span>
                </p>
                <Button kind={step.kind} burnId={burn.id} />
              </li>
            ))}
            {isReady && <Complete detail={detail} />}
          </ol>
        </>
      )}
    </section>
  );
}

/** Whether weighing is among the steps, so that the link to it is shown only once. */
export function offersWeighing(analysis: Analysis | undefined): boolean {
  return (
    analysis !== undefined && nextSteps(analysis).some(({ kind }) => kind === 'weigh' || kind === 'checkWeighings')
  );
}

/** The results shown at the top of a burn come first. */
function outcomeText({ results }: NextStep, aim: Aim): string {
  const words = translate().burns.toDo;
  const first = headlineIds(aim).filter((id) => results.includes(id));
  const ordered = [...first, ...results.filter((id) => !first.includes(id))];
  const names = ordered.slice(0, MOST_NAMED).map(resultName).join(', ');
  const more = results.length - MOST_NAMED;
  return more > 0 ? words.givesMore({ names, more }) : words.gives({ names });
}

const screens: Readonly<Record<Exclude<StepKind, 'marks'>, (burnId: string) => Route>> = {
  weigh: (id) => ({ at: 'wrapUp', id }),
  checkWeighings: (id) => ({ at: 'wrapUp', id }),
  describe: (id) => ({ at: 'describe', id }),
  wood: () => ({ at: 'shelf', kind: 'fuelLots' }),
};

function Button({ kind, burnId }: { kind: StepKind; burnId: string }): VNode {
  const words = translate().burns.toDo.buttons;
  if (kind === 'marks')
    return (
      <button type="button" onClick={() => document.querySelector('.log')?.scrollIntoView({ block: 'start' })}>
        {words.marks}
      </button>
    );
  return (
    <a class={kind === 'weigh' ? 'button primary' : 'button'} href={routeHash(screens[kind](burnId))}>
      {words[kind]}
    </a>
  );
}

function Complete({ detail: { burn } }: { detail: BurnDetail }): VNode {
  const problem = useSignal<string | undefined>(undefined);
  const complete = () =>
    editBurn(burn.id, { status: 'complete', expectedVersion: burn.version }).then(
      () => undefined,
      (cause: unknown) => {
        problem.value = sentenceFor(cause);
      },
    );
  return (
    <li>
      <p>{translate().burns.toDo.ready}</p>
      <button type="button" onClick={() => void complete()}>
        {translate().burns.burn.complete}
      </button>
      <p class="problem" role="alert">
        {problem.value}
      </p>
    </li>
  );
}
