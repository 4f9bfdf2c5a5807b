/**
 * Formulas and sources of workings in English, by their text in the declaration; texts that are not listed are printed
 * as declared. Where the text of a standard was not available, the entry contains the formula and its numbers.
 */
export const workingTextsEn: Readonly<Record<string, string>> = {
  'bench-1 definition; as-received heating value by ISO 18125 (from memory)':
    'bench-1 definition; as-received heating value after ISO 18125, text not at hand: formula and numbers as printed here',
  "Newton's law of cooling, lumped heat capacity (H. S. Carslaw, J. C. Jaeger, Conduction of Heat in Solids, 2nd edition, 1.9, from memory)":
    "Newton's law of cooling, lumped heat capacity (Carslaw and Jaeger, text not at hand: formula as printed here)",
  'After ISO 19867-1:2018; from memory':
    'after ISO 19867-1:2018, text not at hand: formula and constants as printed here',
  'Water boiling test, international standard text of 1985, revised as 3.0; from memory':
    'water boiling test, text of 1985, revised as 3.0, not at hand: formula and constants as printed here',
  'Water boiling test, protocol 4.x; from memory':
    'water boiling test, protocol 4.x, text not at hand: formula and constants as printed here',
};
