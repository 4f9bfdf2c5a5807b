/** Corrects a mark: its moment, its mass, its text. The previous version stays in the record of changes. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { Mark } from '../../../shared/contract/marks.ts';
import type { ShownMark } from '../../burn/burn-state.ts';
import { looksTooHeavy } from '../../burn/heavy-feed.ts';
import { translate } from '../../language/catalogue.ts';
import { number, text } from '../../language/figures.ts';
import { burnSignal } from '../../state/open-burn.ts';
import { type DraftOf, draftOf, type Known, readFields } from '../forms/field-spec.ts';
import { focusFirstWrong } from '../forms/focus-first-wrong.ts';
import { firstWoodLot } from '../forms/lot-field.tsx';
import { useDraft } from '../forms/use-draft.ts';
import { fieldViews } from '../forms/use-form.tsx';
import { useInventory } from '../forms/use-inventory.ts';
import { MarkedUpText } from '../kit/marked-up-text.tsx';
import { Sheet } from '../sheets/sheet.tsx';
import { type MarkFields, markFields, refusedField } from './mark-fields.ts';
import { markWords } from './mark-words.ts';
import { useMarkCorrection } from './use-mark-correction.ts';

export function MarkEditor({
  burnId,
  shown,
  largestFeedKg,
  zeroUs,
  onCorrected,
  onClose,
}: {
  burnId: string;
  shown: ShownMark;
  /** The heaviest other known feed of the stove. */
  largestFeedKg: number | undefined;
  zeroUs: number;
  /** Called with the previous mark, the version that results, and whether it was withdrawn. */
  onCorrected?: (was: Mark, version: number, isGone: boolean) => void;
  onClose: () => void;
}): VNode {
  useInventory();
  const words = translate().marks;
  const { version, refusal } = shown;
  // A refused correction is shown again as it was typed.
  const mark = refusal?.typed ?? shown.mark;
  const lotIds = burnSignal(burnId).value?.burn.fuelLotIds ?? [];
  const fields = markFields(mark, lotIds, zeroUs);
  const known: Known<MarkFields> = mark;
  const was = draftOf(fields, known);
  const { draft, forget } = useDraft<DraftOf<MarkFields>>(`mark.${mark.id}.${version}`, was);
  const entries = draft.value;
  const close = () => {
    forget();
    onClose();
  };
  const correction = useMarkCorrection({
    burnId,
    shown,
    zeroUs,
    onDone(isGone) {
      onCorrected?.(shown.mark, version + 1, isGone);
      close();
    },
  });
  /** The mass is so much more than any other that a confirmation is asked for. */
  const isDoubted = useSignal(false);
  const read = readFields(fields, entries, known);
  const massKg = read.ok ? read.values.massKg : undefined;
  const isTooHeavy =
    mark.kind === 'fed' && massKg !== undefined && massKg !== known.massKg && looksTooHeavy(massKg, largestFeedKg);
  const save = (form?: HTMLFormElement) => {
    if (!read.ok) return form && focusFirstWrong(form);
    if (isTooHeavy && !isDoubted.value) {
      isDoubted.value = true;
      return;
    }
    const { note: _, ...rest } = mark;
    correction.correct({ ...rest, ...read.values } as Mark);
  };
  const refused = refusal && refusedField(refusal.problem);
  const field = fieldViews(fields, {
    draft: { ...entries, fuelLotId: entries.fuelLotId || firstWoodLot(lotIds) },
    problems: {
      // Shown until the entry changes.
      ...(refused && entries[refused] === was[refused] && { [refused]: refusal.problem.message }),
      ...(!read.ok && read.problems),
    },
    onChange(changed) {
      isDoubted.value = false;
      draft.value = { ...entries, ...changed };
    },
  });
  return (
    <Sheet title={words.move({ what: markWords(shown.mark) })} onClose={close}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          save(event.currentTarget);
        }}
      >
        {field('elapsedUs', beforeStart(fields, entries, was))}
        {field('massKg')}
        {field('fuelLotId')}
        {field('value')}
        {field('note')}
        <p class="problem" role="alert">
          {correction.problem}
        </p>
        {isDoubted.value && massKg !== undefined && largestFeedKg !== undefined ? (
          <MassQuestion
            massKg={massKg}
            largestKg={largestFeedKg}
            isSending={correction.isSending}
            onYes={save}
            onNo={() => {
              isDoubted.value = false;
            }}
          />
        ) : (
          <div class="row">
            <button type="submit" class="primary" disabled={correction.isSending}>
              {correction.isSending ? translate().sending : translate().save}
            </button>
            <button type="button" disabled={correction.isSending} onClick={correction.takeBack}>
              {words.remove}
            </button>
          </div>
        )}
      </form>
    </Sheet>
  );
}

/** An action before the start is possible; but rarely intended when only the minute was changed. */
function beforeStart(fields: MarkFields, entries: DraftOf<MarkFields>, was: DraftOf<MarkFields>) {
  const moment = fields.elapsedUs.read(entries.elapsedUs);
  if (!moment.ok || moment.value >= 0 || entries.elapsedUs === was.elapsedUs) return {};
  return { hint: translate().marks.beforeStart({ minutes: number(-moment.value / 60e6, 1) }) };
}

/** Asks for confirmation. The cancel button is where the button just pressed was, in case of a double tap. */
function MassQuestion({
  massKg,
  largestKg,
  isSending,
  onYes,
  onNo,
}: {
  massKg: number;
  largestKg: number;
  isSending: boolean;
  onYes: () => void;
  onNo: () => void;
}): VNode {
  const mass = text('mass', massKg);
  return (
    <div class="doubt" role="alertdialog" aria-labelledby="doubt-question">
      <p id="doubt-question">
        <MarkedUpText text={translate().feed.heavy({ mass, largest: text('mass', largestKg) })} />
      </p>
      <div class="row">
        <button type="button" class="primary" onClick={onNo}>
          {translate().feed.heavyNo}
        </button>
        <button type="button" disabled={isSending} onClick={() => onYes()}>
          {translate().marks.heavyYes({ mass })}
        </button>
      </div>
    </div>
  );
}
