/** Predicts another load: the fields, the prediction with its interval, and how well the model fits. */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { BurnSummary } from '../../../../shared/contract/burns.ts';
import type { Load, Prediction } from '../../../../shared/contract/prediction.ts';
import { revisionName } from '../../../../shared/language/revision-name.ts';
import { compareHash } from '../../../addresses/compare-route.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { language } from '../../../preferences/preferences.ts';
import { predict } from '../../../requests/comparisons.ts';
import type { Inventory } from '../../../state/inventory.ts';
import { SelectField } from '../../forms/field.tsx';
import { isSame } from '../../forms/merge-draft.ts';
import { useDraft } from '../../forms/use-draft.ts';
import { useRefused } from '../../forms/use-refused.ts';
import { WrongFields } from '../../forms/wrong-fields.tsx';
import { Fetching } from '../../kit/fetching.tsx';
import { sentenceFor, useLoad } from '../../kit/use-load.ts';
import { useWide } from '../../kit/use-wide.ts';
import { fetchCountedBurns } from '../parts/counted-burns.ts';
import { NotCountedList } from '../parts/not-counted-list.tsx';
import { burnsOfRevision } from '../parts/sides.ts';
import { stovesOf } from '../parts/stove-pick.tsx';
import { WithBurns } from '../parts/with-burns.tsx';
import { stoveOf } from '../revisions/compare-start.tsx';
import { blankLoad, readLoad } from './load-draft.ts';
import { LoadFields } from './load-fields.tsx';
import { PredictionAnswer } from './prediction-answer.tsx';

export function LoadPage({ revisionId }: { revisionId: string | undefined }): VNode {
  return <WithBurns show={(all, inventory) => <Loads all={all} inventory={inventory} revisionId={revisionId} />} />;
}

function Loads({
  all,
  inventory,
  revisionId,
}: {
  all: readonly BurnSummary[];
  inventory: Inventory;
  revisionId: string | undefined;
}): VNode {
  const words = translateCompare().load;
  const burnt = inventory.revisions.filter(({ id }) => finished(all, id).length > 0);
  const chosen = burnt.find(({ id }) => id === revisionId) ?? burnt.at(-1);
  if (!chosen)
    return (
      <div class="page narrow">
        <h1>{words.title}</h1>
        <p>{translateCompare().noStove}</p>
      </div>
    );
  return (
    <div class="page load-page">
      <header class="page-head">
        <h1>{words.title}</h1>
        <p class="quiet facts">{words.intro}</p>
      </header>
      <CountedQuestion
        key={chosen.id}
        burns={finished(all, chosen.id)}
        stoveBurns={stovesOf(all).find(({ id }) => id === chosen.stoveId)?.burns ?? []}
        inventory={inventory}
        pick={(hint) => (
          <SelectField
            label={words.from}
            value={chosen.id}
            hint={hint}
            options={burnt.map((each) => [each.id, revisionName(stoveOf(each, inventory), each)] as const)}
            onChange={(id) => {
              location.hash = compareHash({ show: 'load', revision: id });
            }}
          />
        )}
      />
    </div>
  );
}

/** Based on the burns that count, as on every comparing screen; on all finished ones where none of them does. */
function CountedQuestion({
  burns,
  stoveBurns,
  inventory,
  pick,
}: {
  burns: readonly BurnSummary[];
  stoveBurns: readonly BurnSummary[];
  inventory: Inventory;
  pick: (hint: string) => VNode;
}): VNode {
  const states = stoveBurns.map(({ id, status }) => `${id} ${status}`).join();
  const loaded = useLoad(`${states} ${language.value}`, () => fetchCountedBurns(stoveBurns, inventory.revisions));
  const counted = loaded.value.value;
  if (!counted) return <Fetching of={loaded} />;
  const counting = burns.filter(({ id }) => counted.ids.includes(id));
  const used = counting.length > 0 ? counting : burns;
  return (
    <>
      <Question burns={used} pick={pick(translateCompare().countOf({ count: used.length, all: burns.length }))} />
      <NotCountedList burns={stoveBurns} counted={counted} />
    </>
  );
}

/** Burns that cannot be used are returned with the reason. */
function finished(all: readonly BurnSummary[], revisionId: string): BurnSummary[] {
  return burnsOfRevision(all, revisionId).filter(({ status }) => status !== 'running');
}

/** A request, as sent. */
interface Asked {
  readonly ids: readonly string[];
  readonly load: Load;
}

function Question({ burns, pick }: { burns: readonly BurnSummary[]; pick: VNode }): VNode {
  const words = translateCompare().load;
  const { draft } = useDraft('load', blankLoad);
  const form = useRef<HTMLFormElement>(null);
  const read = readLoad(draft.value);
  const problems = useRefused(read.ok ? {} : read.problems);
  const asked = useSignal<Asked | undefined>(undefined);
  const answer = useSignal<Prediction | undefined>(undefined);
  const refused = useSignal<string | undefined>(undefined);
  const asking = useSignal(false);
  const ids = burns.map(({ id }) => id);
  const wide = useWide();
  const answerBox = useRef<HTMLDivElement>(null);
  /** A prediction belongs to its request: when the load or the burns change, it is removed. */
  const isAnswered = read.ok && isSame(asked.value, { ids, load: read.load });
  const ask = async (question: Asked) => {
    asked.value = question;
    asking.value = true;
    answer.value = undefined;
    refused.value = undefined;
    const answered = await predict(question.ids, question.load).then(
      (prediction) => () => {
        answer.value = prediction;
      },
      (cause) => () => {
        refused.value = sentenceFor(cause);
      },
    );
    // Of two requests in progress only the later one is used.
    if (asked.peek() !== question) return;
    answered();
    asking.value = false;
  };
  // the service writes the sentences of the prediction: in another language they are requested again
  useEffect(() => {
    if (asked.peek()) void ask({ ...(asked.peek() as Asked) });
  }, [language.value]);
  const submit = (event: Event) => {
    event.preventDefault();
    if (!read.ok) return form.current && problems.refuse(form.current);
    void ask({ ids, load: read.load }).then(() => {
      // On a phone the prediction is below a long form.
      if (!wide) answerBox.current?.scrollIntoView();
    });
  };
  return (
    <div class="asked-and-answered">
      <form onSubmit={submit} ref={form} noValidate>
        {pick}
        <LoadFields
          draft={draft.value}
          problems={problems.shown}
          onChange={(fields) => {
            draft.value = { ...draft.value, ...fields };
          }}
        />
        <div class="form-end">
          <WrongFields form={form} problems={problems.shown} />
          <div class="row">
            <button type="submit" class="primary" disabled={asking.value}>
              {asking.value ? words.asking : words.ask}
            </button>
          </div>
        </div>
      </form>
      <div class="answer" ref={answerBox}>
        <p class="unseen" role="status">
          {asking.value ? words.asking : answer.value && isAnswered && words.answered}
        </p>
        <p class="problem" role="alert">
          {isAnswered && refused.value}
        </p>
        {answer.value && asked.value && isAnswered ? (
          <PredictionAnswer prediction={answer.value} load={asked.value.load} burns={burns} />
        ) : (
          <p class="quiet">{asked.value && !isAnswered ? words.changed : words.notAsked}</p>
        )}
      </div>
    </div>
  );
}
