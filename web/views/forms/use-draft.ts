import { effect, type Signal, useSignal } from '@preact/signals';
import { useLayoutEffect, useMemo } from 'preact/hooks';

/** A form's entries, stored for this tab so that a reload loses nothing. Call `forget` when they have been saved. */
export function useDraft<T extends object>(key: string, initial: T): { draft: Signal<T>; forget: () => void } {
  const name = `stovebench.draft.${key}`;
  // the first value counts; later ones come from the draft itself
  const first = useMemo<T>(() => ({ ...initial, ...stored<T>(name) }), [name]);
  const draft = useSignal<T>(first);
  // Saved with each keystroke, from the first on, and not after the next render: a reload may come in between.
  useLayoutEffect(
    () =>
      effect(() => {
        const value = draft.value;
        if (value === first) return;
        try {
          sessionStorage.setItem(name, JSON.stringify(value));
        } catch {
          // No storage in this window: the draft then lasts as long as the page.
        }
      }),
    [name],
  );
  return { draft, forget: () => forgetDraft(key) };
}

/** Removes entries that have been saved, or that belong to something saved. */
export function forgetDraft(key: string): void {
  try {
    sessionStorage.removeItem(`stovebench.draft.${key}`);
  } catch {
    // Nothing was stored.
  }
}

function stored<T>(name: string): Partial<T> {
  try {
    return JSON.parse(sessionStorage.getItem(name) ?? '{}') as Partial<T>;
  } catch {
    return {};
  }
}
