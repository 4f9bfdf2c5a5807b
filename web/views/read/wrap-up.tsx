/** Weighing what is left, in the order it is done in the yard, and what was weighed before: one sheet, saved once. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';

import { useRef } from 'preact/hooks';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { WeighUp } from '../../../shared/contract/entries.ts';

import type { Weighing } from '../../../shared/contract/weighings.ts';
import { burnState, lidStayedOn } from '../../lib/burn-state.ts';
import { pileSum } from '../../lib/pile-sums.ts';
import { routeHash } from '../../lib/router.ts';
import { type WeighField as Field, fieldRefused, weighFields } from '../../lib/weigh-fields.ts';
import { announce } from '../../state/announce.ts';
import { translate } from '../../state/catalogue.ts';
import { readQuantity, typed, unit } from '../../state/figures.ts';
import { shelves } from '../../state/inventory.ts';
import { burnSignal, loadBurn } from '../../state/open-burn.ts';
import { outbox, sendWeighUp } from '../../state/outbox.ts';
import { bucketKg } from '../../state/preferences.ts';
import { go } from '../../state/route.ts';
import { shownMarks, shownWeighings } from '../../state/shown-entries.ts';
import { Cautions } from '../kit/cautions.tsx';
import { Fetching } from '../kit/fetching.tsx';
import { TextField } from '../kit/field.tsx';
import { focusFirstWrong } from '../kit/focus-first-wrong.ts';
import { useDraft } from '../kit/use-draft.ts';
import { useInventory } from '../kit/use-inventory.ts';
import { useLoad } from '../kit/use-load.ts';
import { BurnNext, type Next, statusAfter, usualNext } from './burn-next.tsx';
import { PileLine } from './pile-line.tsx';
import { knownDraft, readWeighing, type WeighContext, type WeighDraft, type WeighProblems } from './weigh-entries.ts';
import { WeighField } from './weigh-field.tsx';
import { weighingWords } from './weighings-list.tsx';

/** As typed; only what was touched, each with the version it was made from. */
interface SheetDraft {
  readonly fields: Readonly<Record<string, WeighDraft & { readonly from: number }>>;
  readonly bucket: string;
  readonly next: Next | '';
}

export function WrapUp({ id }: { id: string }): VNode {
  const loading = useLoad(id, () => loadBurn(id));
  const detail = burnSignal(id).value;
  if (!detail) return <Fetching of={loading} />;
  return <WeighSheet key={id} detail={detail} />;
}

function WeighSheet({ detail }: { detail: BurnDetail }): VNode {
  const words = translate().read.wrap;
  const { burn } = detail;
  const form = useRef<HTMLFormElement>(null);
  useInventory();
  const marks = shownMarks(detail);
  const weighings = shownWeighings(detail);
  const bucketBefore = typed('mass', bucketOf(weighings));
  const { draft, forget } = useDraft<SheetDraft>(`weigh-up.${burn.id}`, { fields: {}, bucket: bucketBefore, next: '' });
  const problems = useSignal<Readonly<Record<string, WeighProblems>>>({});
  const isSending = useSignal(false);
  const isRefusalSeen = useSignal(false);

  const lots = woodFirst(detail);
  const [after, before] = [weighFields(weighings, 'end', lots), weighFields(weighings, 'start', lots)];
  const fields = [...after, ...before];
  const vessel = shelves.value?.vessels.find(({ id }) => id === burn.vesselId);
  const context: WeighContext = {
    bucket: readQuantity('mass', draft.value.bucket, { positive: true, high: 50 }),
    potKg: vessel?.massKg,
    innerDiameterM: vessel?.innerDiameterM,
    lidStayedOn: lidStayedOn(marks),
  };
  const entered = (field: Field): WeighDraft => draft.value.fields[field.key] ?? knownDraft(field, context);
  const read = (field: Field) => readWeighing(field, entered(field), context);

  const refusal = isRefusalSeen.value ? undefined : refusalOf(burn.id);
  const refusedField = refusal && fieldRefused(fields, refusal.details);
  const problemsOf = (field: Field): WeighProblems => {
    if (field !== refusedField) return problems.value[field.key] ?? {};
    return { amount: refusal?.code === 'store/conflict' ? newestWords(field) : (refusal?.message ?? '') };
  };

  const change = (fields: Partial<SheetDraft>) => {
    draft.value = { ...draft.value, ...fields };
    isRefusalSeen.value = true;
  };
  const changeField = (field: Field) => (entries: Partial<WeighDraft>) => {
    const from = draft.value.fields[field.key]?.from ?? field.shown?.version ?? 0;
    const { [field.key]: _, ...others } = problems.value;
    problems.value = others;
    change({ fields: { ...draft.value.fields, [field.key]: { ...entered(field), ...entries, from } } });
  };
  const isPending = fields.some((field) => entered(field).isLater);
  const isOut = burnState(marks).fireOutUs !== undefined;
  const next = draft.value.next || usualNext(burn.status, { isPending, isOut, after: after.map(read) });

  const save = async (event: Event) => {
    event.preventDefault();
    const said = weighUpOf(fields);
    if (!said) return form.current && focusFirstWrong(form.current);
    const status = statusAfter(burn.status, next, isPending);
    if (context.bucket.ok) bucketKg.value = String(context.bucket.value);
    isSending.value = true;
    const outcome = await sendWeighUp(burn.id, { ...said, ...(status && { status }) });
    isSending.value = false;
    if (outcome.is === 'refused') {
      isRefusalSeen.value = false;
      if (form.current) focusFirstWrong(form.current);
      return;
    }
    forget();
    announce(outcome.is === 'kept' ? words.saved : words.waits);
    go({ at: 'burn', id: burn.id });
  };

  /** All that was touched, or refused before; undefined when something of it cannot be, which then stands at its field. */
  function weighUpOf(all: readonly Field[]): Pick<WeighUp, 'weighings' | 'takeBack'> | undefined {
    const found: Record<string, WeighProblems> = {};
    const kept: WeighUp['weighings'] = [];
    const takeBack: NonNullable<WeighUp['takeBack']> = [];
    for (const field of all) {
      const { key, shown } = field;
      const own = draft.value.fields[key];
      const version = shown?.version ?? 0;
      const usesNewBucket = entered(field).inContainer && draft.value.bucket !== bucketBefore;
      if (!own && !shown?.refusal && !usesNewBucket) continue;
      const said = read(field);
      if (!said.ok) found[key] = said.problems;
      else if (own && own.from !== version && !shown?.refusal) {
        found[key] = { amount: newestWords(field) };
        draft.value = { ...draft.value, fields: { ...draft.value.fields, [key]: { ...own, from: version } } };
      } else if (said.weighing && !shown?.refusal && isSame(said.weighing, shown?.thing)) continue;
      else if (said.weighing) kept.push({ weighing: said.weighing, ...(version > 0 && { expectedVersion: version }) });
      else if (shown) takeBack.push({ id: shown.thing.id, expectedVersion: version });
    }
    problems.value = found;
    return Object.keys(found).length > 0 ? undefined : { weighings: kept, takeBack };
  }

  const fieldsOf = (list: readonly Field[]) =>
    list.map((field) => (
      <div key={field.key} class="weigh-item">
        <WeighField
          field={field}
          draft={entered(field)}
          read={read(field)}
          context={context}
          problems={problemsOf(field)}
          onChange={changeField(field)}
        />
        {field.of === 'fuelPile' && field.when === 'end' && (
          <PileLine
            sum={pileSum(
              marks,
              { lotId: field.lot?.id, isFirst: field.isFirst },
              {
                beforeKg: massIn(read(before.find(({ of, lot }) => of === 'fuelPile' && lot?.id === field.lot?.id)!)),
                afterKg: massIn(read(field)),
              },
            )}
          />
        )}
      </div>
    ));
  // What was weighed before lighting is folded away, unless something of it is missing or wrong.
  const needsBefore = before.some(
    (field) =>
      (field.of !== 'char' && !field.shown) ||
      Object.keys(problemsOf(field)).length > 0 ||
      draft.value.fields[field.key],
  );
  const bucketProblem = Object.values(problems.value).find(({ bucket }) => bucket)?.bucket;
  return (
    <div class="page">
      <header class="page-head">
        <h1>{words.title}</h1>
        <p class="quiet facts">
          <a href={routeHash({ at: 'burn', id: burn.id })}>{burn.title}</a>
        </p>
      </header>
      <p>{words.lead}</p>
      <Cautions of={['char', 'hot']} />
      <form class="weigh-up" ref={form} onSubmit={(event) => void save(event)}>
        <div>
          <section aria-labelledby="after-title">
            <h2 id="after-title">{words.endTitle}</h2>
            <TextField
              decimal
              label={words.bucket}
              unit={unit('mass')}
              hint={words.bucketHelp}
              value={draft.value.bucket}
              problem={context.bucket.ok ? undefined : bucketProblem}
              onInput={(bucket) => change({ bucket })}
            />
            {fieldsOf(after)}
            <p class="quiet">
              <b>{words.goods}.</b> {words.goodsHelp}
            </p>
          </section>
          <section aria-labelledby="before-title">
            <details open={needsBefore}>
              <summary>
                <h2 id="before-title">{words.startTitle}</h2>
              </summary>
              {fieldsOf(before)}
            </details>
          </section>
          <p>
            <a class="button" href={routeHash({ at: 'burn', id: burn.id })}>
              {words.correct}
            </a>
          </p>
        </div>
        <div class="form-aside">
          <BurnNext
            status={burn.status}
            isPending={isPending}
            next={next}
            onNext={(chosen) => change({ next: chosen })}
          />
          <p class="problem" role="alert">
            {refusal && !refusedField && refusal.message}
          </p>
          <p class="row form-end">
            <button type="submit" class="primary" disabled={isSending.value}>
              {isSending.value ? translate().sending : translate().save}
            </button>
          </p>
        </div>
      </form>
    </div>
  );
}

function massIn(read: ReturnType<typeof readWeighing>): number | undefined {
  return read.ok ? read.weighing?.massKg : undefined;
}

/** What somebody else saved, to stand beside what was typed here. */
function newestWords({ shown }: Field): string {
  return `${translate().marks.conflict} ${translate().read.wrap.conflictNow({ what: shown ? weighingWords(shown.thing) : translate().read.wrap.notYet })}`;
}

function refusalOf(burnId: string) {
  return outbox.value.find(({ about, burnId: of, refusal }) => about.kind === 'weighUp' && of === burnId && refusal)
    ?.refusal;
}

/** The bucket this burn was weighed in, else the one that this device remembers. */
function bucketOf(weighings: ReturnType<typeof shownWeighings>): number | undefined {
  const used = weighings.find(({ thing }) => thing.of !== 'water' && thing.tareKg !== undefined)?.thing.tareKg;
  return used ?? (bucketKg.value === '' ? undefined : Number(bucketKg.value));
}

const measures = ['massKg', 'tareKg', 'volumeL', 'tempC', 'lidOn', 'pending'] as const;

function isSame(weighing: Weighing, known: Weighing | undefined): boolean {
  return known !== undefined && measures.every((measure) => weighing[measure] === known[measure]);
}

/** Lots of the burn, wood first. */
function woodFirst({ summary: { fuelLots } }: BurnDetail): BurnDetail['summary']['fuelLots'] {
  const isWood = (id: string) => shelves.value?.fuelLots.find((lot) => lot.id === id)?.kind === 'wood';
  return [...fuelLots].sort((a, b) => Number(isWood(b.id)) - Number(isWood(a.id)));
}
