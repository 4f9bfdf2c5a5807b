/** Correcting a mark: its moment, its mass, its words. What was there before stays in the record of changes. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { Mark } from '../../../shared/contract/marks.ts';
import type { Problem } from '../../../shared/contract/problem.ts';
import type { ShownMark } from '../../lib/burn-state.ts';
import { looksTooHeavy } from '../../lib/heavy-feed.ts';
import { announce } from '../../state/announce.ts';
import { translate } from '../../state/catalogue.ts';
import { number, readNumber, readQuantity, text, typed, unit } from '../../state/figures.ts';
import { burnSignal, channelOf } from '../../state/open-burn.ts';
import { correct, takeBack } from '../../state/outbox.ts';
import { TextField } from './field.tsx';
import { firstWoodLot, LotField } from './lot-field.tsx';
import { markWords } from './mark-words.ts';
import { readHandReading, readingUnit, typedReading } from './reading-words.ts';
import { Rich } from './rich.tsx';
import { Sheet } from './sheet.tsx';
import { useDraft } from './use-draft.ts';

type Field = 'minute' | 'mass' | 'lot' | 'reading' | 'note';

/** The field that a refusal of the service is about; undefined for one about the mark as a whole. */
function fieldOf({ code }: Problem): Field | undefined {
  if (code === 'mark/in-the-future') return 'minute';
  if (code === 'mark/reading-impossible') return 'reading';
  return code.startsWith('weighing/more-') ? 'mass' : undefined;
}

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
  /** The heaviest other feed that is known of the stove. */
  largestFeedKg: number | undefined;
  zeroUs: number;
  /** Hears what the mark was before, the version that comes of it, and whether it was taken back. */
  onCorrected?: (was: Mark, version: number, isGone: boolean) => void;
  onClose: () => void;
}): VNode {
  const words = translate().marks;
  const { version, refusal } = shown;
  // A correction that was refused comes back as it was typed.
  const mark = refusal?.typed ?? shown.mark;
  const isConflict = refusal?.problem.code === 'store/conflict';
  const massKg = 'massKg' in mark ? mark.massKg : undefined;
  const hasMass = 'massKg' in mark || mark.kind === 'fed' || mark.kind === 'logOut';
  const probe = mark.kind === 'reading' ? channelOf(mark.channelId) : undefined;
  const was = {
    minute: number((mark.elapsedUs - zeroUs) / 60e6, 1),
    mass: typed('mass', massKg),
    reading: probe && mark.kind === 'reading' ? typedReading(probe, mark.value) : '',
    note: mark.note ?? '',
    lot: ('fuelLotId' in mark && mark.fuelLotId) || '',
  };
  const { draft: entries, forget } = useDraft(`mark.${mark.id}.${version}`, was);
  const close = () => {
    forget();
    onClose();
  };
  const isSending = useSignal(false);
  /** The mass is so much more than any other that the person is asked once more. */
  const isDoubted = useSignal(false);
  // What this form started from: a version that came from another screen meanwhile is shown before it is overwritten.
  const startedFrom = useSignal(version);
  const isTold = useSignal(isConflict);
  const newest = () => {
    const minuteNow = number((shown.mark.elapsedUs - zeroUs) / 60e6, 1);
    return `${words.conflict} ${words.conflictNow({ what: markWords(shown.mark), minute: minuteNow })}`;
  };
  const problem =
    isConflict || isTold.value ? newest() : refusal && !fieldOf(refusal.problem) ? refusal.problem.message : undefined;
  /** Stands until the figure is another one. */
  const refusedAt = (field: Field) =>
    refusal && fieldOf(refusal.problem) === field && entries.value[field] === was[field]
      ? refusal.problem.message
      : undefined;
  /** Whether somebody else's version has been seen beside what was typed here. */
  const hasSeenNewest = () => {
    if (isConflict || startedFrom.value === version) return true;
    startedFrom.value = version;
    isTold.value = true;
    return false;
  };
  const set = (field: Field) => (value: string) => {
    isDoubted.value = false;
    entries.value = { ...entries.value, [field]: value };
  };
  const minute = readNumber(entries.value.minute);
  // Something may well have been done before; seldom was it meant when only the minute was changed.
  const beforeStartMin = minute.ok && entries.value.minute !== was.minute ? -(zeroUs / 60e6 + minute.value) : 0;
  const lotIds = burnSignal(burnId).value?.burn.fuelLotIds ?? [];
  const massText = entries.value.mass.trim();
  const mass = massText === '' && massKg === undefined ? undefined : readQuantity('mass', massText, { positive: true });
  const reading = probe && readHandReading(probe, entries.value.reading);
  const finish = async (outcome: ReturnType<typeof correct>, isGone: boolean) => {
    isSending.value = true;
    const { is } = await outcome;
    isSending.value = false;
    if (is === 'refused') {
      // From here on the newest version stands beside what was typed.
      startedFrom.value = version;
      isTold.value = false;
      return;
    }
    if (isGone) announce(words.undone({ what: markWords(shown.mark) }));
    onCorrected?.(shown.mark, version + 1, isGone);
    close();
  };
  const isTooHeavy =
    mark.kind === 'fed' && mass?.ok && entries.value.mass !== was.mass && looksTooHeavy(mass.value, largestFeedKg);
  const save = () => {
    if (!minute.ok || (mass && !mass.ok) || (reading && !reading.ok)) return;
    if (isTooHeavy && !isDoubted.value) {
      isDoubted.value = true;
      return;
    }
    if (!hasSeenNewest()) return;
    const { note: _, ...rest } = mark;
    const changed = {
      ...rest,
      // A figure nobody touched stays as exact as it was, whatever the field shows of it.
      ...(entries.value.minute !== was.minute && { elapsedUs: Math.round(zeroUs + minute.value * 60e6) }),
      ...(mass?.ok && entries.value.mass !== was.mass && { massKg: mass.value }),
      ...(reading?.ok && entries.value.reading !== was.reading && { value: reading.value }),
      ...(entries.value.lot !== was.lot && { fuelLotId: entries.value.lot }),
      ...(entries.value.note.trim() && { note: entries.value.note.trim() }),
    } as Mark;
    void finish(correct(burnId, 'mark', changed, version), false);
  };
  const remove = () => {
    if (hasSeenNewest()) void finish(takeBack(burnId, 'mark', mark.id, version), true);
  };
  return (
    <Sheet title={words.move({ what: markWords(shown.mark) })} onClose={close}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        <TextField
          decimal
          label={zeroUs === 0 ? words.minutesFromStart : words.minutesFromLit}
          unit="min"
          value={entries.value.minute}
          hint={beforeStartMin > 0 ? words.beforeStart({ minutes: number(beforeStartMin, 1) }) : undefined}
          problem={minute.ok ? refusedAt('minute') : minute.problem}
          onInput={set('minute')}
        />
        {hasMass && (
          <TextField
            decimal
            label={translate().other.mass}
            unit={unit('mass')}
            value={entries.value.mass}
            problem={mass && !mass.ok ? mass.problem : refusedAt('mass')}
            onInput={set('mass')}
          />
        )}
        {(mark.kind === 'fed' || mark.kind === 'logOut') && (
          <LotField lotIds={lotIds} value={entries.value.lot || firstWoodLot(lotIds)} onChange={set('lot')} />
        )}
        {probe && (
          <TextField
            decimal
            label={probe.name}
            unit={readingUnit(probe)}
            value={entries.value.reading}
            problem={reading && !reading.ok ? reading.problem : refusedAt('reading')}
            onInput={set('reading')}
          />
        )}
        <TextField label={words.names.note} lines={2} value={entries.value.note} onInput={set('note')} />
        <p class="problem" role="alert">
          {problem}
        </p>
        {isDoubted.value && mass?.ok && largestFeedKg !== undefined ? (
          <div class="doubt" role="alertdialog" aria-labelledby="doubt-question">
            <p id="doubt-question">
              <Rich
                text={translate().feed.heavy({ mass: text('mass', mass.value), largest: text('mass', largestFeedKg) })}
              />
            </p>
            <div class="row">
              {/* Where the button just pressed stood is the way back, for a thumb that taps twice. */}
              <button
                type="button"
                class="primary"
                onClick={() => {
                  isDoubted.value = false;
                }}
              >
                {translate().feed.heavyNo}
              </button>
              <button type="button" disabled={isSending.value} onClick={save}>
                {words.heavyYes({ mass: text('mass', mass.value) })}
              </button>
            </div>
          </div>
        ) : (
          <div class="row">
            <button type="submit" class="primary" disabled={isSending.value}>
              {isSending.value ? translate().sending : translate().save}
            </button>
            <button type="button" disabled={isSending.value} onClick={remove}>
              {words.remove}
            </button>
          </div>
        )}
      </form>
    </Sheet>
  );
}
