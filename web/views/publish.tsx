/** Publishes the finished burns into a folder of the bench machine, and shows the outcome. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { Bench } from '../../shared/contract/bench.ts';
import type { Publication } from '../../shared/contract/publication.ts';
import type { Message } from '../../shared/contract/results.ts';
import { datasetErrors } from '../../shared/language/errors/dataset-errors.ts';
import type { ErrorEntry } from '../../shared/language/errors/error-entry.ts';
import { translatePublish } from '../language/catalogue.ts';
import { language } from '../preferences/preferences.ts';
import { call } from '../requests/service.ts';
import { TextField } from './forms/field.tsx';
import { useDraft } from './forms/use-draft.ts';
import { sentenceFor, useLoad } from './kit/use-load.ts';

const LOOK_AGAIN_MS = 500;

export function Publish(): VNode | null {
  const bench = useLoad('bench', () => call('GET /bench'));
  const state = useLoad('dataset', () => call('GET /dataset'));
  const [named, now] = [bench.value.value, state.value.value];
  const runs = now?.phase === 'publishing';
  useEffect(() => {
    if (!runs) return;
    const timer = setInterval(state.reload, LOOK_AGAIN_MS);
    return () => clearInterval(timer);
  }, [runs]);
  if (!named || !now) return <p class="problem">{bench.problem.value ?? state.problem.value}</p>;
  const words = translatePublish();
  return (
    <section class="back-up" aria-labelledby="publish-title">
      <h3 id="publish-title">{words.title}</h3>
      <p class="quiet">
        {words.help} {words.open}
      </p>
      <PublishForm
        bench={named}
        now={now}
        onBegun={(begun) => {
          state.value.value = begun;
        }}
      />
      <div role="status">{now.phase === 'done' && <Done now={now} />}</div>
      <p class="problem" role="alert">
        {now.problem && problemSentence(now.problem)}
      </p>
    </section>
  );
}

function PublishForm({
  bench,
  now,
  onBegun,
}: {
  bench: Bench;
  now: Publication;
  onBegun: (begun: Publication) => void;
}): VNode {
  const words = translatePublish();
  const { draft, forget } = useDraft('publish', { name: bench.name, folder: now.folder });
  const problem = useSignal<string | undefined>(undefined);
  const begin = async (event: Event) => {
    event.preventDefault();
    problem.value = undefined;
    const { name, folder } = draft.value;
    try {
      if (name !== bench.name) await call('PUT /bench', { body: { name } });
      onBegun(await call('POST /dataset', { body: now.mayChoose ? { folder } : {} }));
      forget();
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  return (
    <form onSubmit={(event) => void begin(event)}>
      <TextField
        label={words.name}
        value={draft.value.name}
        onInput={(name) => {
          draft.value = { ...draft.value, name };
        }}
      />
      {now.mayChoose ? (
        <TextField
          label={words.folder}
          hint={words.folderHelp}
          value={draft.value.folder}
          onInput={(folder) => {
            draft.value = { ...draft.value, folder };
          }}
        />
      ) : (
        <p class="quiet">
          {words.elsewhere} <code>{now.folder}</code>
        </p>
      )}
      <button type="submit" disabled={now.phase === 'publishing'}>
        {words.button}
      </button>
      <p class="problem" role="alert">
        {problem.value}
      </p>
    </form>
  );
}

function Done({ now }: { now: Publication }): VNode {
  const words = translatePublish();
  return (
    <>
      <p>
        {words.done({ burns: now.burns, files: now.totalFiles })} <code>{now.folder}</code>
      </p>
      {now.unfinished > 0 && <p class="quiet">{words.unfinished({ burns: now.unfinished })}</p>}
      {now.elsewhere > 0 && <p class="quiet">{words.byOthers({ burns: now.elsewhere })}</p>}
    </>
  );
}

function problemSentence({ code, params }: Message): string {
  const known: Readonly<Record<string, ErrorEntry>> = datasetErrors;
  return known[code]?.[language.value](params) ?? code;
}
