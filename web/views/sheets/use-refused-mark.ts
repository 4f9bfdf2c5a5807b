import { useEffect } from 'preact/hooks';
import { refusedEntry } from '../../state/outbox.ts';
import type { OpenSheet } from './use-open-sheet.ts';

/** Opens the mark whose refused entry the person wants to see, on the screen that shows the marks of its burn. */
export function useRefusedMark(burnId: string, marks: OpenSheet): void {
  const asked = refusedEntry.value;
  useEffect(() => {
    if (asked?.burnId !== burnId || asked.about.kind !== 'mark') return;
    refusedEntry.value = undefined;
    marks.show(asked.about.id);
  }, [asked]);
}
