/**
 * Returns the name of a revision with its stove, such as "Heron 2": names given by people, so the same in every
 * language. An unknown part is left out; empty where both are unknown.
 */
export function revisionName(
  stove: { readonly name: string } | undefined,
  revision: { readonly label: string } | undefined,
): string {
  return [stove?.name, revision?.label].filter(Boolean).join(' ');
}
