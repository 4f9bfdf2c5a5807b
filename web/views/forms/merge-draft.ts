/** Merges the entries of two people who edit one thing, based on the version from which both started. Pure. */

/** A field that another person changed meanwhile: its entry here and the saved one. */
export interface Meanwhile<V> {
  readonly mine: V;
  readonly theirs: V;
}

/** A form's entries with the version on which they are based. */
export interface VersionedDraft<T extends object> {
  readonly fields: T;
  /** The fields of that version, as the form shows them. */
  readonly base: T;
  readonly version: number;
  readonly meanwhile: { readonly [K in keyof T]?: Meanwhile<T[K]> };
}

/**
 * The draft based on a newer version: fields unchanged here take the saved value, fields changed here stay. Every field
 * with different values in both is listed with the two, until the draft is saved.
 */
export function mergeDraft<T extends object>(
  { fields, base, meanwhile }: VersionedDraft<T>,
  newer: { readonly fields: T; readonly version: number },
): VersionedDraft<T> {
  const keys = [...new Set([...Object.keys(fields), ...Object.keys(newer.fields)])] as (keyof T)[];
  const merged: Partial<T> = {};
  const changed: { -readonly [K in keyof T]?: Meanwhile<T[K]> } = { ...meanwhile };
  for (const key of keys) {
    const [mine, before, theirs] = [fields[key], base[key], newer.fields[key]];
    const isTouched = !isSame(mine, before);
    if (isTouched ? mine !== undefined : theirs !== undefined) merged[key] = isTouched ? mine : theirs;
    if (!isSame(theirs, before) && !isSame(mine, theirs)) changed[key] = { mine, theirs };
  }
  return { fields: merged as T, base: newer.fields, version: newer.version, meanwhile: changed };
}

export function isSame(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
