/** In English: long work that the bench does, how far it is, and what cancelling it comes to. */
import type { Work } from '../../contract/work.ts';

const nothingChanged = 'Cancelled. Nothing was changed.';
const noFile = 'Cancelled. No file was made.';

export const workEn = {
  title: 'Work under way',
  kinds: {
    receiving: 'Sending the file, in MB',
    reading: 'Reading the file',
    importing: 'Importing',
    comparing: 'Comparing burns',
    exporting: 'Making the file',
    reporting: 'Making the report',
    publishing: 'Publishing files',
    backingUp: 'Backing up burns',
  } as Record<Work['kind'], string>,
  progress: (p: { what: string; done: number; of: number }) => `${p.what}: ${p.done}\u00a0of\u00a0${p.of}`,
  cancel: 'Cancel',
  cancelled: {
    receiving: nothingChanged,
    reading: nothingChanged,
    importing: nothingChanged,
    comparing: nothingChanged,
    exporting: noFile,
    reporting: noFile,
    publishing: 'Cancelled. What is published so far is whole.',
    backingUp: 'Cancelled. No backup was made.',
  } as Record<Work['kind'], string>,
};
