const COUNTING =
  /^(?:#|n[o°º]\.?|nr\.?|num(?:ber|[ée]ro)?|row|line|ligne|rang|index|idx|id|i|seq(?:uence)?|scan|sample|record|relev[ée]|mesure|point|count(?:er)?|compteur)\s*(?:#|n[o°º]\.?|number|no\.?)?$/i;

/** Whether the column of a heading counts lines instead of measuring. */
export function isCountHeading(heading: string): boolean {
  return COUNTING.test(heading.trim());
}
