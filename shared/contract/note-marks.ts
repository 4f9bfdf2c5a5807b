/** The marks that lines of notes can become. */
export const noteMarks = [
  'lit',
  'relit',
  'fed',
  'nudged',
  'logOut',
  'lidOn',
  'lidOff',
  'potOn',
  'potOff',
  'fireOut',
  'note',
] as const;
export type NoteMark = (typeof noteMarks)[number];

/** Marks that may have a mass. */
export const weighedNoteMarks = ['fed', 'logOut'] as const satisfies readonly NoteMark[];
