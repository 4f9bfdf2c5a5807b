/** Names of the method sets, in English. */
import type { MethodSet } from '../../contract/burn-record.ts';

export const methodNamesEn: Readonly<Record<MethodSet, string>> = {
  'bench-1': 'Bench method 1',
  'water-boil-1985': 'Water boiling test, 1985 text',
  'water-boil-4': 'Water boiling test, protocol 4.x',
  'iso-19867-char-credit': 'After ISO 19867-1, with char credit',
  'iso-19867-no-char-credit': 'After ISO 19867-1, without char credit',
};
