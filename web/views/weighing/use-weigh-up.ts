/** The sheet that weighs what is left: the entries of its fields, their problems, and sending all of them at once. */
import { useSignal } from '@preact/signals';
import type { BurnDetail } from '../../../shared/contract/burns.ts';
import type { WeighUp } from '../../../shared/contract/entries.ts';
import type { Weighing } from '../../../shared/contract/weighings.ts';
import { burnState, lidStayedOn } from '../../burn/burn-state.ts';
import { translate } from '../../language/catalogue.ts';
import { bucketKg } from '../../preferences/preferences.ts';
import { announce } from '../../state/announce.ts';
import { currentInventory } from '../../state/inventory.ts';
import { outbox, sendWeighUp } from '../../state/outbox.ts';
import { go } from '../../state/route.ts';
import { shownMarks, shownWeighings } from '../../state/shown-entries.ts';
import { focusFirstWrong } from '../forms/focus-first-wrong.ts';
import { useDraft } from '../forms/use-draft.ts';
import { problemText } from '../kit/use-load.ts';
import { type Next, statusAfter, usualNext } from './after-weighing.tsx';
import { fieldRefused, type WeighField, weighFields } from './things-to-weigh.ts';
import {
  bucketField,
  knownDraft,
  type ReadWeighing,
  readWeighing,
  type WeighContext,
  type WeighDraft,
  type WeighProblems,
} from './weigh-entries.ts';
import { weighingWords } from './weighings-list.tsx';

/** As typed; only changed fields, each with the version on which it is based. */
interface SheetDraft {
  readonly fields: Readonly<Record<string, WeighDraft & { readonly from: number }>>;
  readonly bucket: string;
  readonly next: Next | '';
}

/** One thing to weigh: its entries, and the weighing that they describe. */
export interface WeighEntry {
  readonly field: WeighField;
  readonly draft: WeighDraft;
  readonly read: ReadWeighing;
  readonly problems: WeighProblems;
  readonly isTouched: boolean;
  change(entries: Partial<WeighDraft>): void;
}

export function useWeighUp(detail: BurnDetail) {
  const { burn } = detail;
  const marks = shownMarks(detail);
  const weighings = shownWeighings(detail);
  const known = bucketOf(weighings);
  const bucketBefore = known === undefined ? '' : bucketField().write(known);
  const { draft, forget } = useDraft<SheetDraft>(`weigh-up.${burn.id}`, { fields: {}, bucket: bucketBefore, next: '' });
  const found = useSignal<Readonly<Record<string, WeighProblems>>>({});
  const isSending = useSignal(false);
  const isRefusalSeen = useSignal(false);

  const lots = woodFirst(detail);
  const vessel = currentInventory.value?.vessels.find(({ id }) => id === burn.vesselId);
  const context: WeighContext = {
    bucket: bucketField().read(draft.value.bucket),
    potKg: vessel?.massKg,
    innerDiameterM: vessel?.innerDiameterM,
    lidStayedOn: lidStayedOn(marks),
  };
  const [after, before] = (['end', 'start'] as const).map((when) => weighFields(weighings, when, lots)) as [
    WeighField[],
    WeighField[],
  ];
  const refusal = isRefusalSeen.value ? undefined : refusalOf(burn.id);
  const refusedField = refusal && fieldRefused([...after, ...before], refusal.details);

  const change = (entries: Partial<SheetDraft>) => {
    draft.value = { ...draft.value, ...entries };
    isRefusalSeen.value = true;
  };
  const entryOf = (field: WeighField): WeighEntry => {
    const own = draft.value.fields[field.key];
    const entered = { ...knownDraft(field, context), ...own };
    const { [field.key]: problems = {}, ...others } = found.value;
    return {
      field,
      draft: entered,
      read: readWeighing(field, entered, context),
      problems:
        refusal && field === refusedField
          ? { amount: refusal.code === 'store/conflict' ? newestText(field) : refusal.message }
          : problems,
      isTouched: own !== undefined,
      change(entries) {
        const from = own?.from ?? field.shown?.version ?? 0;
        found.value = others;
        change({ fields: { ...draft.value.fields, [field.key]: { ...entered, ...entries, from } } });
      },
    };
  };
  const entries = { after: after.map(entryOf), before: before.map(entryOf) };
  const all = [...entries.after, ...entries.before];
  const isPending = all.some((entry) => entry.draft.isLater);
  const isOut = burnState(marks).fireOutUs !== undefined;
  const readAfter = entries.after.map(({ read }) => read);
  const next = draft.value.next || usualNext(burn.status, { isPending, isOut, after: readAfter });

  /** All entries that were changed, or refused before; undefined when one is invalid, which its field then shows. */
  const changedWeighings = (): Pick<WeighUp, 'weighings' | 'takeBack'> | undefined => {
    const problems: Record<string, WeighProblems> = {};
    const changed: WeighUp['weighings'] = [];
    const takeBack: NonNullable<WeighUp['takeBack']> = [];
    for (const { field, draft: entered, read } of all) {
      const { key, shown } = field;
      const own = draft.value.fields[key];
      const version = shown?.version ?? 0;
      const usesNewBucket = entered.inContainer && draft.value.bucket !== bucketBefore;
      if (!own && !shown?.refusal && !usesNewBucket) continue;
      if (!read.ok) problems[key] = read.problems;
      else if (own && own.from !== version && !shown?.refusal) {
        problems[key] = { amount: newestText(field) };
        draft.value = { ...draft.value, fields: { ...draft.value.fields, [key]: { ...own, from: version } } };
      } else if (read.weighing && !shown?.refusal && isSame(read.weighing, shown?.thing)) continue;
      else if (read.weighing)
        changed.push({ weighing: read.weighing, ...(version > 0 && { expectedVersion: version }) });
      else if (shown) takeBack.push({ id: shown.thing.id, expectedVersion: version });
    }
    found.value = problems;
    return Object.keys(problems).length > 0 ? undefined : { weighings: changed, takeBack };
  };

  const save = async (form: HTMLFormElement) => {
    const weighUp = changedWeighings();
    if (!weighUp) return focusFirstWrong(form);
    const status = statusAfter(burn.status, next, isPending);
    if (context.bucket.ok) bucketKg.value = String(context.bucket.value);
    isSending.value = true;
    const outcome = await sendWeighUp(burn.id, { ...weighUp, ...(status && { status }) });
    isSending.value = false;
    if (outcome.is === 'refused') {
      isRefusalSeen.value = false;
      return focusFirstWrong(form);
    }
    forget();
    const words = translate().burns.wrap;
    announce(outcome.is === 'kept' ? words.saved : words.waits);
    go({ at: 'burn', id: burn.id });
  };

  return {
    ...entries,
    context,
    marks,
    isPending,
    next,
    bucket: {
      text: draft.value.bucket,
      problem: context.bucket.ok ? undefined : Object.values(found.value).find(({ bucket }) => bucket)?.bucket,
    },
    change,
    /** The refusal of the whole sheet by the service. */
    refusal: refusedField || !refusal ? undefined : problemText(refusal),
    isSending: isSending.value,
    save,
  };
}

/** The version saved by another person, to be shown next to the entries here. */
function newestText({ shown }: WeighField): string {
  return `${translate().marks.conflict} ${translate().burns.wrap.conflictNow({ what: shown ? weighingWords(shown.thing) : translate().burns.wrap.notYet })}`;
}

function refusalOf(burnId: string) {
  return outbox.value.find(({ about, burnId: of, refusal }) => about.kind === 'weighUp' && of === burnId && refusal)
    ?.refusal;
}

/** The bucket used for this burn, else the one stored on this device. */
function bucketOf(weighings: ReturnType<typeof shownWeighings>): number | undefined {
  const used = weighings.find(({ thing }) => thing.of !== 'water' && thing.tareKg !== undefined)?.thing.tareKg;
  return used ?? (bucketKg.value === '' ? undefined : Number(bucketKg.value));
}

const measures = ['massKg', 'tareKg', 'volumeL', 'tempC', 'lidOn', 'pending'] as const;

function isSame(weighing: Weighing, known: Weighing | undefined): boolean {
  return (
    known !== undefined &&
    measures.every((measure) => weighing[measure] === known[measure]) &&
    JSON.stringify(weighing.moisture) === JSON.stringify(known.moisture)
  );
}

/** Lots of the burn, wood first. */
function woodFirst({ summary: { fuelLots } }: BurnDetail): BurnDetail['summary']['fuelLots'] {
  const isWood = (id: string) => currentInventory.value?.fuelLots.find((lot) => lot.id === id)?.kind === 'wood';
  return [...fuelLots].sort((a, b) => Number(isWood(b.id)) - Number(isWood(a.id)));
}
