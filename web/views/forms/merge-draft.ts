/** Two people describing one thing: what each of them typed since the version they both started from. Pure. */

/** A field that somebody else changed meanwhile, as it is here and as it was saved there. */
export interface Meanwhile<V> {
  readonly mine: V;
  readonly theirs: V;
}

/** A form's entries over the version that they were made from. */
export interface VersionedDraft<T extends object> {
  readonly fields: T;
  /** The fields of that version, as the form shows them. */
  readonly base: T;
  readonly version: number;
  readonly meanwhile: { readonly [K in keyof T]?: Meanwhile<T[K]> };
}

/**
 * The draft over a newer version: what nobody touched here becomes what was saved there, what was typed here stays. Every field that
 * was saved otherwise there is named with both its values, until the draft is saved.
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
