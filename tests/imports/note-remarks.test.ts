import { expect, test } from 'vitest';
import { notesToBurn, previewNotes } from '../../server/imports/notes/notes.ts';
import type { NoteDoubt, NotesFormat } from '../../shared/contract/imports.ts';
import type { NoteMark } from '../../shared/contract/mark-kinds.ts';
import fc from '../support/properties.ts';

/** The remark at the end of a line that has a time and a reading. */
function remark(text: string) {
  const { lines } = previewNotes(`10:05 23,5 ${text}`);
  const { mark, massKg, doubts = [] } = lines[0]!;
  return { mark, massKg, doubts };
}

const remarks: readonly (readonly [string, NoteMark, (number | undefined)?, (readonly NoteDoubt[])?])[] = [
  // What was read wrongly.
  ['log pulled out', 'note', undefined, ['unsure']],
  ['smoke came out of the door', 'note'],
  ['ran out of kindling', 'note'],
  ['fed 1.2 kg, smoke came out of the door', 'fed', 1.2],
  ['out', 'note', undefined, ['unsure']],
  ['M went out', 'note'],
  // The end of a fire.
  ['fire out', 'fireOut'],
  ['Fire is out.', 'fireOut'],
  ['fire’s out', 'fireOut'],
  ['the fire went out', 'fireOut'],
  ['raked out and weighed', 'fireOut'],
  ['éteint', 'fireOut'],
  ['le feu est éteint', 'fireOut'],
  ['braises retirées', 'fireOut'],
  ['fire nearly out', 'note', undefined, ['unsure']],
  ['fire not out yet', 'note', undefined, ['unsure']],
  ['fire out?', 'note', undefined, ['unsure']],
  ['fire out? no', 'note', undefined, ['unsure']],
  ['fire out of control', 'note', undefined, ['unsure']],
  ['feu presque éteint', 'note', undefined, ['unsure']],
  ['éteint la lampe', 'note', undefined, ['unsure']],
  ['raked the coals forward', 'note', undefined, ['unsure']],
  // Lit.
  ['lit', 'lit'],
  ['lit the fire with newspaper', 'lit'],
  ['allumage', 'lit'],
  ['j’ai allumé le feu', 'lit'],
  ['not lit yet', 'note', undefined, ['unsure']],
  ['lit a cigarette', 'note', undefined, ['unsure']],
  ['beau lit de braises', 'note', undefined, ['unsure']],
  ['plus d’allumettes', 'note', undefined, ['unsure']],
  ['relit', 'relit'],
  ['rallumé', 'relit'],
  // Lid.
  ['lid on', 'lidOn'],
  ['put the lid back on', 'lidOn'],
  ['couvercle remis', 'lidOn'],
  ['lid off', 'lidOff'],
  ['took the lid off', 'lidOff'],
  ['sans couvercle', 'lidOff'],
  ['couvercle enlevé', 'lidOff'],
  ['took the lid off, put the lid on', 'lidOff', undefined, ['several']],
  ['lid on and off', 'lidOn', undefined, ['unsure']],
  ['lid rattling', 'note', undefined, ['unsure']],
  ['lid on the ground', 'note', undefined, ['unsure']],
  ['couvercle brûlant', 'note', undefined, ['unsure']],
  ['ciel couvert', 'note', undefined, ['unsure']],
  // Fed.
  ['fed 1,2 kg', 'fed', 1.2],
  ['fed: .8 kg', 'fed', 0.8],
  ['fed 800 g', 'fed', 0.8],
  ['fed 1.200 kg', 'fed', 1.2],
  ['fed 1 200 g', 'fed', 1.2],
  ['fed 1,200 g', 'fed', 1.2, ['thousands']],
  ['fed 2 logs (1.2 kg)', 'fed', 1.2],
  ['R fed 0.9 kg of damp beech', 'fed', 0.9],
  ['rechargé 1,2 kg', 'fed', 1.2],
  ['remis une grosse bûche, 1,1 kg', 'fed', 1.1],
  ['ajouté du bois', 'fed'],
  // The pound is exactly 0.45359237 kg (international yard and pound agreement of 1959).
  ['fed 2 lb', 'fed', 0.90718474],
  ['fed 1 kg, 3 kg left', 'fed', 1, ['mass']],
  ['fed 1/2 kg', 'fed', undefined, ['mass']],
  ['fed 2 x 0.6 kg', 'note', undefined, ['unsure', 'mass']],
  ['fed 0.8 + 0.4 kg', 'note', undefined, ['unsure', 'mass']],
  ['fed 3-4 kg', 'note', undefined, ['unsure', 'mass']],
  ['fed 0 kg', 'note', undefined, ['unsure', 'mass']],
  ['added 2 kg water', 'note', undefined, ['mass']],
  ['remis 2 kg d’eau', 'note', undefined, ['mass']],
  ['1.2 kg', 'note', undefined, ['mass']],
  ['forgot to feed 1.2 kg', 'note', undefined, ['unsure', 'mass']],
  ['fed the chickens', 'note', undefined, ['unsure']],
  ['feed door open', 'note', undefined, ['unsure']],
  ['rechargé le téléphone', 'note', undefined, ['unsure']],
  ['no more wood', 'note', undefined, ['unsure']],
  ['plus de bois', 'note', undefined, ['unsure']],
  ['windy', 'note'],
];

test.each(remarks.map(([text, mark, massKg, doubts = []]) => ({ text, mark, massKg, doubts })))(
  '"$text" becomes $mark',
  ({ text, mark, massKg, doubts }) => {
    const found = remark(text);
    expect([found.mark, found.massKg, [...found.doubts].sort()]).toEqual([mark, massKg, [...doubts].sort()]);
  },
);

test('words that nobody foresaw, around whatever an action is told by, leave a note', () => {
  const strange = fc.constantFrom(
    'neighbour',
    'goat',
    'almost',
    'never',
    'presque',
    'pas',
    'if',
    'voisin',
    'tomorrow',
    'chèvre',
  );
  const reported = fc.constantFrom(
    'fire out',
    'lit',
    'lid on',
    'lid off',
    'fed 1.2 kg',
    'éteint',
    'couvercle mis',
    'allumé',
  );
  fc.assert(
    fc.property(strange, reported, fc.boolean(), (word, action, isBefore) => {
      const found = remark(isBefore ? `${word} ${action}` : `${action} ${word}`);
      expect(found.mark).toBe('note');
      expect(found.doubts).toContain('unsure');
    }),
  );
});

test('the mass of a feed is taken to the gram, however it is written, or doubted: never another one', () => {
  const fed = fc.constantFrom('fed', 'rechargé', 'R fed', 'fed 2 logs,');
  const write = fc.constantFrom(
    (g: number) => `${g / 1000} kg`,
    (g: number) => `${g / 1000}kg`.replace('.', ','),
    (g: number) => `${g} g`,
    (g: number) => `${g / 1000} kilos`,
    (g: number) => `${g < 1000 ? g : `${Math.floor(g / 1000)}\u202f${String(g % 1000).padStart(3, '0')}`} g`,
    (g: number) => `${g < 1000 ? g : `${Math.floor(g / 1000)},${String(g % 1000).padStart(3, '0')}`} g`,
  );
  fc.assert(
    fc.property(fed, fc.integer({ min: 1, max: 9999 }), write, (verb, grams, written) => {
      const { mark, massKg } = remark(`${verb} ${written(grams)}`);
      expect([mark, Math.round(massKg! * 1000)]).toEqual(['fed', grams]);
    }),
  );
});

test('a number that counts logs is no temperature', () => {
  const { lines, format } = previewNotes('10:05 23,5\n10:10 2 logs added\n10:15 30 2 gros rondins');
  expect([format.names.length, lines.map(({ values }) => values)]).toEqual([1, [[23.5], [], [30]]]);
});

test.each([
  ['10:05 1,050.5', [1050.5]],
  ['10:05 21,185', [21.185]],
])('a mark with three digits behind it is doubted: %j', (text, values) => {
  expect(previewNotes(text).lines[0]).toMatchObject({ values, doubts: ['thousands'] });
});

const text = '10:00 lit\n10:05 20\n10:10 log pulled out\n10:20 2 kg\n10:30 fire out\n11:05 97,5';
const formatOf = (more: Partial<NotesFormat>): NotesFormat => ({ ...previewNotes(text).format, ...more });

test('a person says what a line becomes, with its mass, or that nothing of it is kept', () => {
  const format = formatOf({
    marks: [
      { line: 3, mark: 'logOut' },
      { line: 4, mark: 'fed', massKg: 2 },
      { line: 5, mark: 'none' },
    ],
  });
  expect(previewNotes(text, format).lines.map(({ mark, massKg, doubts }) => [mark, massKg, doubts])).toEqual([
    ['lit', undefined, undefined],
    [undefined, undefined, undefined],
    ['logOut', undefined, undefined],
    ['fed', 2, undefined],
    [undefined, undefined, undefined],
    [undefined, undefined, undefined],
  ]);
  const { record: draft } = notesToBurn(text, 'notes', format, { title: 'notes', startedUtcMs: 0 });
  expect(draft.marks.map((mark) => [mark.kind, mark.note, mark.kind === 'fed' ? mark.massKg : undefined])).toEqual([
    ['lit', 'lit', undefined],
    ['logOut', 'log pulled out', undefined],
    ['fed', '2 kg', 2],
  ]);
  expect(() => previewNotes(text, formatOf({ marks: [{ line: 9, mark: 'fed' }] }))).toThrow(
    'import/note-wrong {"line":9',
  );
});

test('an hour too many or too few at night is asked about, and taken off where the clock was set', () => {
  const notes = '01:50 60\n03:05 85\n03:10 86';
  const guess = previewNotes(notes);
  expect(guess.lines.map(({ elapsedS, doubts }) => [elapsedS, doubts])).toEqual([
    [0, undefined],
    [4500, ['clockSet']],
    [4800, undefined],
  ]);
  const set = previewNotes(notes, { ...guess.format, clockSteps: [{ line: 2, byS: 3600 }] });
  expect(set.lines.map(({ elapsedS, doubts }) => [elapsedS, doubts])).toEqual([
    [0, undefined],
    [900, undefined],
    [1200, undefined],
  ]);
  const back = '02:50 60\n02:05 85';
  expect(previewNotes(back).lines[1]).toMatchObject({ problem: 'laterTime', doubts: ['clockSet'] });
  const { format } = previewNotes(back);
  expect(previewNotes(back, { ...format, clockSteps: [{ line: 2, byS: -3600 }] }).lines[1]?.elapsedS).toBe(900);
});
