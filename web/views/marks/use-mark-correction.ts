/** Sends the correction of a mark: a version saved meanwhile on another screen is shown before it is overwritten. */
import { useSignal } from '@preact/signals';
import type { Mark } from '../../../shared/contract/marks.ts';
import type { ShownMark } from '../../burn/burn-state.ts';
import { translate } from '../../language/catalogue.ts';
import { number } from '../../language/figures.ts';
import { announce } from '../../state/announce.ts';
import { correct, takeBack } from '../../state/outbox.ts';
import { refusedField } from './mark-fields.ts';
import { markWords } from './mark-words.ts';

export function useMarkCorrection({
  burnId,
  shown: { mark, version, refusal },
  zeroUs,
  onDone,
}: {
  burnId: string;
  shown: ShownMark;
  zeroUs: number;
  onDone: (isGone: boolean) => void;
}) {
  const words = translate().marks;
  const isConflict = refusal?.problem.code === 'store/conflict';
  const isSending = useSignal(false);
  /** The version on which the entries are based. */
  const startedFrom = useSignal(version);
  const isNewestShown = useSignal(isConflict);
  const newest = () => {
    const minute = number((mark.elapsedUs - zeroUs) / 60e6, 1);
    return `${words.conflict} ${words.conflictNow({ what: markWords(mark), minute })}`;
  };
  /** Sends once the other person's version has been shown next to the entries. */
  const send = async (act: () => ReturnType<typeof correct>, isGone: boolean) => {
    if (!isConflict && startedFrom.value !== version) {
      startedFrom.value = version;
      isNewestShown.value = true;
      return;
    }
    isSending.value = true;
    const { is } = await act();
    isSending.value = false;
    if (is === 'refused') {
      // From here on the newest version is shown next to the entries.
      startedFrom.value = version;
      isNewestShown.value = false;
      return;
    }
    if (isGone) announce(words.undone({ what: markWords(mark) }));
    onDone(isGone);
  };
  return {
    isSending: isSending.value,
    /** What is wrong with the mark as a whole. */
    problem:
      isConflict || isNewestShown.value
        ? newest()
        : refusal && !refusedField(refusal.problem)
          ? refusal.problem.message
          : undefined,
    correct: (changed: Mark) => void send(() => correct(burnId, 'mark', changed, version), false),
    takeBack: () => void send(() => takeBack(burnId, 'mark', mark.id, version), true),
  };
}
