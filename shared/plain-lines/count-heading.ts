const COUNTING =
  /^(?:#|n[o°º]\.?|nr\.?|num(?:ber|[ée]ro)?|row|line|ligne|rang|index|idx|id|i|seq(?:uence)?|scan|sample|record|relev[ée]|mesure|point|count(?:er)?|compteur)\s*(?:#|n[o°º]\.?|number|no\.?)?$/i;

/** Whether what stands under a heading numbers the lines and measures nothing. */
export function isCountHeading(heading: string): boolean {
  return COUNTING.test(heading.trim());
}
