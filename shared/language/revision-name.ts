/**
 * A revision with its stove, as in "Heron 2": names that people gave, so the same in every language. What is not known is left
 * out; empty where neither is.
 */
export function revisionName(
  stove: { readonly name: string } | undefined,
  revision: { readonly label: string } | undefined,
): string {
  return [stove?.name, revision?.label].filter(Boolean).join(' ');
}
