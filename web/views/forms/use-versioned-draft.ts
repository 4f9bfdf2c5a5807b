import { useLayoutEffect } from 'preact/hooks';
import { mergeDraft, type VersionedDraft } from './merge-draft.ts';
import { useDraft } from './use-draft.ts';

/**
 * A form's entries about a thing that others may change meanwhile. They know the version they were made from, also through a reload; when
 * a newer one is known they are put over it (see `mergeDrafts`).
 * @param known the newest version known here, as the form shows it; version 0 for a thing that is new
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
