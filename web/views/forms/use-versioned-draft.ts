import { useLayoutEffect } from 'preact/hooks';
import { mergeDraft, type VersionedDraft } from './merge-draft.ts';
import { useDraft } from './use-draft.ts';

/**
 * A form's entries about a thing that others may change meanwhile. They store the version on which they are based, also
 * through a reload; when a newer one is known they are merged with it (see `mergeDraft`).
 * @param known the newest version known here, as the form shows it; version 0 for a new thing
 */
export function useVersionedDraft<T extends object>(
  key: string,
  known: { version: number; fields: T },
  preset?: Partial<T>,
) {
  const { draft, forget } = useDraft<VersionedDraft<T>>(key, {
    fields: { ...known.fields, ...preset },
    base: known.fields,
    version: known.version,
    meanwhile: {},
  });
  useLayoutEffect(() => {
    if (draft.value.version !== known.version) draft.value = mergeDraft(draft.value, known);
  }, [draft, known.version]);
  return {
    ...draft.value,
    change(fields: Partial<T>) {
      draft.value = { ...draft.value, fields: { ...draft.value.fields, ...fields } };
    },
    replace(fields: T) {
      draft.value = { ...draft.value, fields };
    },
    forget,
  };
}
