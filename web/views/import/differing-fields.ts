/** Compares two copies of one thing, field by field. Pure. */

export type Leaf = string | number | boolean;
export interface DifferingField {
  /** Names from the outside in; an entry of a list is identified by its name or its index. */
  readonly path: readonly string[];
  readonly mine?: Leaf | undefined;
  readonly theirs?: Leaf | undefined;
}

/** The fields in which the two differ, in the order in which they first appear. */
export function differingFields(mine: unknown, theirs: unknown): DifferingField[] {
  const [here, there] = [leavesOf(mine), leavesOf(theirs)];
  const keys = [...new Set([...here.keys(), ...there.keys()])];
  return keys.flatMap((key) => {
    const [a, b] = [here.get(key), there.get(key)];
    return a?.value === b?.value ? [] : [{ path: (a ?? b)!.path, mine: a?.value, theirs: b?.value }];
  });
}

/** Every plain value, by its path. Identifiers are skipped, since they name the thing and do not describe it. */
function leavesOf(
  value: unknown,
  path: readonly string[] = [],
  key = '',
): Map<string, { path: readonly string[]; value: Leaf }> {
  if (typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean') {
    return new Map([[key, { path, value }]]);
  }
  if (typeof value !== 'object' || value === null) return new Map();
  const entries = Array.isArray(value)
    ? value.map(
        (entry, index) => [identityOf(entry) ?? String(index), nameOf(entry) ?? String(index + 1), entry] as const,
      )
    : Object.entries(value).flatMap(([name, entry]) => (name === 'id' ? [] : [[name, name, entry] as const]));
  return new Map(entries.flatMap(([id, name, entry]) => [...leavesOf(entry, [...path, name], `${key}/${id}`)]));
}

function identityOf(entry: unknown): string | undefined {
  return textField(entry, 'id');
}

function nameOf(entry: unknown): string | undefined {
  return textField(entry, 'name');
}

function textField(entry: unknown, name: string): string | undefined {
  const value = typeof entry === 'object' && entry !== null ? (entry as Record<string, unknown>)[name] : undefined;
  return typeof value === 'string' ? value : undefined;
}
