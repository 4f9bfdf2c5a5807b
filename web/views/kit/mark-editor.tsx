/** Correcting a mark: its moment, its mass, its words. What was there before stays in the record of changes. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { KeptMark } from '../../../shared/contract/api.ts';
import type { Mark } from '../../../shared/contract/marks.ts';
import { Refusal } from '../../lib/api.ts';
import type { ShownMark } from '../../lib/burn-state.ts';
import { announce } from '../../state/announce.ts';
import { say } from '../../state/catalogue.ts';
import { number, readNumber, readQuantity, typed, unit } from '../../state/figures.ts';
import { channelOf, keepMark, loadBurn } from '../../state/open-burn.ts';
import { undoMark } from '../../state/outbox.ts';
import { person } from '../../state/preferences.ts';
import { call } from '../../state/service.ts';
import { readHandReading, readingUnit, typedReading } from '../rig/reading-words.ts';
import { TextField } from './field.tsx';
import { markWords } from './mark-words.ts';
import { Sheet } from './sheet.tsx';
import { useDraft } from './use-draft.ts';
import { sentenceFor } from './use-load.ts';

/** Save a new version of a mark. Throws Refusal on a conflict; the fresh version is then on its way to the screen. */
export async function saveMark(burnId: string, mark: Mark, expectedVersion: number): Promise<KeptMark> {
  const by = person.value.trim();
  try {
    const kept = await call<KeptMark>('PUT', `/burns/${burnId}/marks/${mark.id}`, {
      mark,
      expectedVersion,
      ...(by && { by }),
    });
    keepMark(burnId, kept);
    return kept;
  } catch (cause) {
    if (cause instanceof Refusal && cause.status === 409) await loadBurn(burnId);
    throw cause;
  }
}

export function MarkEditor({
  burnId,
  shown,
  zeroUs,
  onCorrected,
  onClose,
}: {
  burnId: string;
  shown: ShownMark;
  zeroUs: number;
  /** Hears what the mark was before, the version it has now, and whether it was taken back. */
  onCorrected?: (was: Mark, version: number, isGone: boolean) => void;
  onClose: () => void;
}): VNode {
  const words = say().marks;
  const { mark, version } = shown;
  const massKg = 'massKg' in mark ? mark.massKg : undefined;
  const hasMass = 'massKg' in mark || mark.kind === 'fed' || mark.kind === 'logOut';
  const probe = mark.kind === 'reading' ? channelOf(mark.channelId) : undefined;
  const was = {
    minute: number((mark.elapsedUs - zeroUs) / 60e6, 1),
    mass: typed('mass', massKg),
    reading: probe && mark.kind === 'reading' ? typedReading(probe, mark.value) : '',
    note: mark.note ?? '',
  };
  const { draft: entries, forget } = useDraft(`mark.${mark.id}.${version}`, was);
  const close = () => {
    forget();
    onClose();
  };
  const problem = useSignal<string | undefined>(undefined);
  // What this form started from: a version that came from another screen meanwhile is shown before it is overwritten.
  const startedFrom = useSignal(version);
  const showTheirs = () => {
    startedFrom.value = version;
    const minuteNow = number((mark.elapsedUs - zeroUs) / 60e6, 1);
    problem.value = `${words.conflict} ${words.conflictNow({ what: markWords(mark), minute: minuteNow })}`;
  };
  const set = (field: 'minute' | 'mass' | 'reading' | 'note') => (value: string) => {
    entries.value = { ...entries.value, [field]: value };
  };
  const minute = readNumber(entries.value.minute);
  const massText = entries.value.mass.trim();
  const mass = massText === '' && massKg === undefined ? undefined : readQuantity('mass', massText, { positive: true });
  const reading = probe && readHandReading(probe, entries.value.reading);
  const save = async (event: Event) => {
    event.preventDefault();
    if (!minute.ok || (mass && !mass.ok) || (reading && !reading.ok)) return;
    if (startedFrom.value !== version) return showTheirs();
    const { note: _, ...rest } = mark;
    const changed = {
      ...rest,
      // A figure nobody touched stays as exact as it was, whatever the field shows of it.
      ...(entries.value.minute !== was.minute && { elapsedUs: Math.round(zeroUs + minute.value * 60e6) }),
      ...(mass?.ok && entries.value.mass !== was.mass && { massKg: mass.value }),
      ...(reading?.ok && entries.value.reading !== was.reading && { value: reading.value }),
      ...(entries.value.note.trim() && { note: entries.value.note.trim() }),
    } as Mark;
    try {
      const kept = await saveMark(burnId, changed, version);
      onCorrected?.(mark, kept.version, false);
      close();
    } catch (cause) {
      problem.value = cause instanceof Refusal && cause.status === 409 ? words.conflict : sentenceFor(cause);
    }
  };
  const takeBack = async () => {
    if (startedFrom.value !== version) return showTheirs();
    await undoMark(burnId, mark.id, version);
    announce(words.undone({ what: markWords(mark) }));
    // Withdrawing is a version too.
    onCorrected?.(mark, version + 1, true);
    close();
  };
  return (
    <Sheet title={words.move({ what: markWords(mark) })} onClose={close}>
      <form onSubmit={save}>
        <TextField
          decimal
          label={zeroUs === 0 ? words.minutesFromStart : words.minutesFromLit}
          unit="min"
          value={entries.value.minute}
          problem={minute.ok ? undefined : minute.problem}
          onInput={set('minute')}
        />
        {hasMass && (
          <TextField
            decimal
            label={say().other.mass}
            unit={unit('mass')}
            value={entries.value.mass}
            problem={mass && !mass.ok ? mass.problem : undefined}
            onInput={set('mass')}
          />
        )}
        {probe && (
          <TextField
            decimal
            label={probe.name}
            unit={readingUnit(probe)}
            value={entries.value.reading}
            problem={reading && !reading.ok ? reading.problem : undefined}
            onInput={set('reading')}
          />
        )}
        <TextField label={words.names.note} lines={2} value={entries.value.note} onInput={set('note')} />
        <p class="problem" role="alert">
          {problem.value}
        </p>
        <div class="row">
          <button type="submit" class="primary">
            {say().save}
          </button>
          <button type="button" onClick={takeBack}>
            {words.remove}
          </button>
        </div>
      </form>
    </Sheet>
  );
}
