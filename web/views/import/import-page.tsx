/** Importing data: a file or notes, their review, then saved or discarded. */
import type { VNode } from 'preact';
import { translateImport } from '../../language/catalogue.ts';
import { ChooseFile, PasteNotes } from './choose.tsx';
import { Columns } from './columns.tsx';
import { ImportResult } from './import-outcome.tsx';
import { Merge } from './merge.tsx';
import { Notes } from './notes.tsx';
import { TroubleNote } from './trouble-note.tsx';
import { type Staged, useStaged } from './use-staged.ts';

export function ImportPage(): VNode {
  const words = translateImport();
  const staged = useStaged();
  const { outcome } = staged;
  return (
    <div class="page bring-in">
      <header class="page-head">
        <h1>{words.title}</h1>
      </header>
      {outcome.value ? <ImportResult outcome={outcome.value} onMore={staged.cancel} /> : <Before staged={staged} />}
    </div>
  );
}

function Before({ staged }: { staged: Staged }): VNode {
  switch (staged.preview.value?.kind) {
    case 'columns':
      return <Columns staged={staged} preview={staged.preview.value} />;
    case 'notes':
      return <Notes staged={staged} preview={staged.preview.value} />;
    case 'burns':
      return <Merge staged={staged} preview={staged.preview.value} />;
    default:
      return <Choose staged={staged} />;
  }
}

function Choose({ staged }: { staged: Staged }): VNode {
  const words = translateImport();
  return (
    <>
      <p class="lead small">{words.intro}</p>
      <ChooseFile staged={staged} />
      <p class="quiet" role="status">
        {staged.busy.value && words.choose.working}
      </p>
      <TroubleNote staged={staged} />
      <PasteNotes staged={staged} />
    </>
  );
}
