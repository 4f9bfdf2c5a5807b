import { useEffect } from 'preact/hooks';
import { useDraft } from '../forms/use-draft.ts';

export interface OpenSheet {
  /** Which sheet is open; empty for none. */
  readonly which: string;
  show(which: string): void;
  close(): void;
}

/** Which sheet of a screen is open. It opens again after a reload, but not after leaving the screen. */
export function useOpenSheet(screen: string): OpenSheet {
  const { draft, forget } = useDraft(`sheet.${screen}`, { which: '' });
  // A reload ends the page without this cleanup; leaving the screen does not.
  useEffect(() => forget, [screen]);
  return {
    which: draft.value.which,
    show(which) {
      draft.value = { which };
    },
    close() {
      draft.value = { which: '' };
    },
  };
}
