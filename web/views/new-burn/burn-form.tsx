/**
 * Describes a burn, before lighting or after: prefilled from the last one, with a list of the results that empty fields
 * will prevent.
 */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useRef } from 'preact/hooks';
import type { Burn, BurnDetail, CreateBurn, EditBurn } from '../../../shared/contract/burns.ts';
import { burnTitle } from '../../../shared/language/burn-title.ts';
import { revisionName } from '../../../shared/language/revision-name.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate, translateCooling } from '../../language/catalogue.ts';
import { uuid7 } from '../../outbox/uuid7.ts';
import { language } from '../../preferences/preferences.ts';
import { Refusal } from '../../requests/http.ts';
import { call } from '../../requests/service.ts';
import { burns, loadBurns } from '../../state/burns.ts';
import { currentInventory, loadInventory } from '../../state/inventory.ts';
import { burnSignal, editBurn, loadBurn, saveDetail } from '../../state/open-burn.ts';
import { sendWeighUp } from '../../state/outbox.ts';
import { goOn, route } from '../../state/route.ts';
import { MeanwhileList } from '../forms/meanwhile-list.tsx';
import { isSame } from '../forms/merge-draft.ts';
import { useRefused } from '../forms/use-refused.ts';
import { useVersionedDraft } from '../forms/use-versioned-draft.ts';
import { WrongFields } from '../forms/wrong-fields.tsx';
import { Cautions } from '../kit/cautions.tsx';
import { Fetching } from '../kit/fetching.tsx';
import { sentenceFor, useLoad } from '../kit/use-load.ts';
import { type BurnDraft, blankDraft, burnEntryText, carriedOver, draftOfBurn, readBurn } from './burn-draft.ts';
import { BurnFields } from './burn-form-fields.tsx';
import { BurnUnanswered } from './burn-unanswered.tsx';

interface Ready {
  known?: BurnDetail;
  last?: Burn;
}

/**
 * Loads what the form needs before it can be shown: the inventory, and the burn to correct or the last one to copy
 * from.
 */
async function prepare(id: string | undefined): Promise<Ready> {
  await Promise.all([loadInventory(), loadBurns()]);
  if (id !== undefined) return { known: await loadBurn(id) };
  const last = (burns.value ?? []).find(({ status }) => status !== 'planned');
  return last ? { last: (await loadBurn(last.id)).burn } : {};
}

export function BurnForm({ id }: { id: string | undefined }): VNode {
  const ready = useLoad(id ?? 'new', () => prepare(id));
  if (!ready.value.value || !currentInventory.value) return <Fetching of={ready} />;
  return <Form ready={ready.value.value} />;
}

function Form({ ready: { known: loaded, last } }: { ready: Ready }): VNode {
  const words = translate().describe;
  // Reloaded after a conflict, with the changes saved on another screen.
  const known = loaded && (burnSignal(loaded.burn.id).value ?? loaded);
  const initial = known ? draftOfBurn(known.burn) : last ? carriedOver(last) : blankDraft();
  const { fields, base, version, meanwhile, change, forget } = useVersionedDraft<BurnDraft>(
    `burn.${known?.burn.id ?? 'new'}`,
    { version: known?.burn.version ?? 0, fields: initial },
  );
  const form = useRef<HTMLFormElement>(null);
  const title = suggestedTitle(fields, known);
  const read = readBurn(fields, title);
  const problems = useRefused(read.ok ? {} : read.problems);
  const refusal = useSignal<string | undefined>(undefined);
  const submit = async (light: boolean) => {
    refusal.value = undefined;
    if (!read.ok) return form.current && problems.refuse(form.current);
    const from = route.peek();
    try {
      const detail = known
        ? await editBurn(known.burn.id, { ...changedIn(read.burn, base, title), expectedVersion: version })
        : await create(read.burn, light);
      const weighings = read.weighings.map((weighing) => ({ weighing: { ...weighing, id: uuid7() } }));
      if (weighings.length > 0) await sendWeighUp(detail.burn.id, { weighings });
      forget();
      // A person who changed to another screen during saving stays there.
      if (route.peek() !== from) return;
      goOn(
        detail.burn.status === 'running'
          ? { at: 'run', id: detail.burn.id }
          : known
            ? { at: 'burn', id: detail.burn.id }
            : { at: 'now' },
      );
    } catch (cause) {
      const isConflict = known && cause instanceof Refusal && cause.status === 409;
      const isSeen = isConflict && (await loadBurn(known.burn.id).catch(() => undefined));
      if (!isSeen) refusal.value = sentenceFor(cause);
    }
  };
  return (
    <div class="page">
      <header class="page-head">
        <h1>{known ? words.editTitle : words.newTitle}</h1>
      </header>
      <p>{last ? words.prefilled({ title: last.title }) : words.intro}</p>
      {!known && (
        <p>
          <a href={routeHash({ at: 'cooling' })}>{translateCooling().insteadOfBurn}</a>
        </p>
      )}
      <form
        class="burn-form"
        ref={form}
        onSubmit={(event) => {
          event.preventDefault();
          void submit(!known);
        }}
      >
        <div>
          <MeanwhileList<BurnDraft>
            meanwhile={meanwhile}
            fields={fields}
            textOf={(key, value) => burnEntryText(fields, key, value)}
            onChoose={change}
          />
          <BurnFields
            draft={fields}
            problems={problems.shown}
            asksWeighings={!known}
            titleHint={title}
            onChange={change}
          />
        </div>
        <div class="form-aside">
          <BurnUnanswered draft={fields} asksWeighings={!known} isWrong={!read.ok} />
          {!known && <Cautions of={['lighting', 'scrap', 'unattended', 'defer']} />}
          <div class="form-end">
            <WrongFields form={form} problems={problems.shown} />
            <p class="problem" role="alert">
              {refusal.value}
            </p>
            <p class="row">
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
        </div>
      </form>
    </div>
  );
}

async function create(burn: CreateBurn, light: boolean): Promise<BurnDetail> {
  const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;
  return saveDetail(
    await call('POST /burns', { body: { ...burn, id: uuid7(), zone, status: light ? 'running' : 'planned' } }),
  );
}

/**
 * Changes compared with the initial entries; null where a field was emptied. An unchanged number keeps its exact value
 * and its date.
 */
function changedIn(burn: CreateBurn, base: BurnDraft, title: string): Omit<EditBurn, 'expectedVersion'> {
  const before = readBurn(base, title);
  const known: Partial<CreateBurn> = before.ok ? before.burn : {};
  const fields = Object.keys({ ...known, ...burn }) as (keyof CreateBurn)[];
  return Object.fromEntries(
    fields.flatMap((field) => (isSame(burn[field], known[field]) ? [] : [[field, burn[field] ?? null]])),
  );
}

/** "Heron 2 · burn 7": the revision and the number of its burns. */
function suggestedTitle({ revisionId }: BurnDraft, known: BurnDetail | undefined): string {
  const revision = currentInventory.value?.revisions.find(({ id }) => id === revisionId);
  const stove = currentInventory.value?.stoves.find(({ id }) => id === revision?.stoveId);
  const name = revisionName(stove, revision) || translate().name;
  const others = (burns.value ?? []).filter(
    ({ id, revision: of }) => of?.id === (revisionId || undefined) && id !== known?.burn.id,
  );
  return burnTitle(language.value, name, others.length + 1);
}
