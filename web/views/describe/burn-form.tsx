/** Describing a burn, before lighting or after: filled in from the last one, saying what its gaps will cost. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { Burn, BurnDetail, CreateBurn, EditBurn } from '../../../shared/contract/api.ts';
import { type BurnDraft, blankDraft, carriedOver, draftOfBurn } from '../../lib/burn-draft.ts';
import { uuid7 } from '../../lib/uuid7.ts';
import { burns, loadBurns } from '../../state/burns.ts';
import { say } from '../../state/catalogue.ts';
import { number, typed } from '../../state/figures.ts';
import { editBurn, keepDetail, loadBurn } from '../../state/open-burn.ts';
import { sendWeighUp } from '../../state/outbox.ts';
import { go } from '../../state/route.ts';
import { call } from '../../state/service.ts';
import { loadShelves, shelves } from '../../state/shelf.ts';
import { Cautions } from '../cautions.tsx';
import { Fetching } from '../kit/fetching.tsx';
import { useDraft } from '../kit/use-draft.ts';
import { sentenceFor, useLoad } from '../kit/use-load.ts';
import { type FormProblems, readDraft } from './burn-entries.ts';
import { BurnFields } from './burn-fields.tsx';
import { Costs } from './costs.tsx';

interface Ready {
  known?: BurnDetail;
  last?: Burn;
}

/** All that the form needs before it can show itself: shelves, and the burn to correct or the last one to copy from. */
async function prepare(id: string | undefined): Promise<Ready> {
  await Promise.all([loadShelves(), loadBurns()]);
  if (id !== undefined) return { known: await loadBurn(id) };
  const last = (burns.value ?? []).find(({ status }) => status !== 'planned');
  return last ? { last: (await loadBurn(last.id)).burn } : {};
}

export function BurnForm({ id }: { id: string | undefined }): VNode {
  const ready = useLoad(id ?? 'new', () => prepare(id));
  if (!ready.value.value || !shelves.value) return <Fetching of={ready} />;
  return <Form ready={ready.value.value} />;
}

const write = {
  temp: (tempC: number) => typed('temperature', tempC, 1),
  minutes: (seconds: number) => number(seconds / 60, 0),
  pressure: (pascal: number) => typed('pressure', pascal, 1),
  mass: (kg: number) => typed('mass', kg),
  heat: (jPerGK: number) => number(jPerGK, 2),
};

function Form({ ready: { known, last } }: { ready: Ready }): VNode {
  const words = say().describe;
  const initial = known ? draftOfBurn(known.burn, write) : last ? carriedOver(last, write) : blankDraft;
  const { draft, forget } = useDraft<BurnDraft>(`burn.${known?.burn.id ?? 'new'}`, initial);
  const problems = useSignal<FormProblems>({});
  const refusal = useSignal<string | undefined>(undefined);
  const change = (fields: Partial<BurnDraft>) => {
    draft.value = { ...draft.value, ...fields };
  };
  const submit = async (light: boolean) => {
    const read = readDraft(draft.value, suggestedTitle(draft.value, known));
    problems.value = read.ok ? {} : read.problems;
    refusal.value = undefined;
    if (!read.ok) return;
    try {
      const detail = known ? await correct(known, read.burn) : await create(read.burn, light);
      const weighings = read.weighings.map((weighing) => ({ weighing: { ...weighing, id: uuid7() } }));
      if (weighings.length > 0) await sendWeighUp(detail.burn.id, { weighings });
      forget();
      go(
        detail.burn.status === 'running'
          ? { at: 'run', id: detail.burn.id }
          : known
            ? { at: 'burn', id: detail.burn.id }
            : { at: 'now' },
      );
    } catch (cause) {
      refusal.value = sentenceFor(cause);
    }
  };
  return (
    <div class="page">
      <header class="page-head">
        <h1>{known ? words.editTitle : words.newTitle}</h1>
      </header>
      <p>{last ? words.prefilled({ title: last.title }) : words.lead}</p>
      <form
        class="burn-form"
        onSubmit={(event) => {
          event.preventDefault();
          void submit(!known);
        }}
      >
        <div>
          <BurnFields
            draft={draft.value}
            problems={problems.value}
            asksWeighings={!known}
            titleHint={suggestedTitle(draft.value, known)}
            onChange={change}
          />
        </div>
        <div class="form-aside">
          <Costs draft={draft.value} asksWeighings={!known} />
          {!known && <Cautions of={['lighting', 'scrap', 'unattended', 'defer']} />}
          {Object.keys(problems.value).length > 0 && (
            <p class="problem" role="alert">
              {words.wrong} {Object.values(problems.value).join(' ')}
            </p>
          )}
          <p class="problem" role="alert">
            {refusal.value}
          </p>
          <p class="row form-end">
            <button type="submit" class="primary">
              {known ? words.saveChanges : words.lightNow}
            </button>
            {!known && (
              <button type="button" onClick={() => void submit(false)}>
                {words.plan}
              </button>
            )}
          </p>
        </div>
      </form>
    </div>
  );
}

async function create(burn: CreateBurn, light: boolean): Promise<BurnDetail> {
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return keepDetail(
    await call<BurnDetail>('POST', '/burns', { ...burn, id: uuid7(), zone, status: light ? 'running' : 'planned' }),
  );
}

async function correct(known: BurnDetail, burn: CreateBurn): Promise<BurnDetail> {
  const { status: _s, id: _i, ...fields } = burn;
  try {
    return await editBurn(known.burn.id, { ...fields, expectedVersion: known.burn.version } as EditBurn);
  } catch (cause) {
    // After a conflict the next try starts from what is there now; the form keeps what was typed.
    const fresh = await loadBurn(known.burn.id).catch(() => undefined);
    if (fresh) known.burn = fresh.burn;
    throw cause;
  }
}

/** "Heron 2 · burn 7": the revision and how many burns it has had. */
function suggestedTitle({ revisionId }: BurnDraft, known: BurnDetail | undefined): string {
  const revision = shelves.value?.revisions.find(({ id }) => id === revisionId);
  const stove = shelves.value?.stoves.find(({ id }) => id === revision?.stoveId);
  const name = [stove?.name, revision?.label].filter(Boolean).join(' ') || say().name;
  const others = (burns.value ?? []).filter(
    ({ id, revision: of }) => of?.id === (revisionId || undefined) && id !== known?.burn.id,
  );
  return say().describe.titleAuto({ stove: name, count: others.length + 1 });
}
