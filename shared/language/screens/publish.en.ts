/** In English: publishing the burns of the bench. */

const burns = (count: number) => (count === 1 ? '1 burn' : `${count} burns`);
const files = (count: number) => (count === 1 ? '1 file' : `${count} files`);

export const publishEn = {
  title: 'Publish the burns',
  help: 'Finished burns go into a folder as files that other programs read. Several benches may share the folder. Only what changed is written.',
  open: 'Names, places and notes are published as they were entered.',
  name: 'Name of this bench',
  folder: 'Folder on the bench machine',
  folderHelp: 'The whole path, such as that of a stick or of a shared folder.',
  elsewhere: 'Into which folder, the bench machine itself says. Now it is',
  button: 'Publish',
  done: (p: { burns: number; files: number }) =>
    p.files === 0
      ? `All is there already: ${burns(p.burns)}, in`
      : `Published: ${burns(p.burns)}, ${files(p.files)} written, in`,
  unfinished: (p: { burns: number }) => `Left out, not finished yet: ${burns(p.burns)}.`,
  byOthers: (p: { burns: number }) => `Left out, published there by another bench: ${burns(p.burns)}.`,
};
