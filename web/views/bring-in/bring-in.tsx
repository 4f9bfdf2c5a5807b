/** Bringing data in: a file or notes, a look at what they are, then kept or not. */
import type { VNode } from 'preact';
import { sayBringIn } from '../../state/catalogue.ts';
import { ChooseFile, PasteNotes } from './choose.tsx';
import { Columns } from './columns.tsx';
import { Kept } from './kept.tsx';
import { Merge } from './merge.tsx';
import { Notes } from './notes.tsx';
import { TroubleNote } from './trouble-note.tsx';
import { type Staged, useStaged } from './use-staged.ts';

export function BringIn(): VNode {
  const words = sayBringIn();
  const staged = useStaged();
  const { outcome } = staged;
  return (
    <div class="page bring-in">
      <header class="page-head">
        <h1>{words.title}</h1>
      </header>
      {outcome.value ? <Kept outcome={outcome.value} onMore={staged.cancel} /> : <Before staged={staged} />}
    </div>
  );
}

function Before({ staged }: { staged: Staged }): VNode {
  const { preview, busy } = staged;
  const words = sayBringIn();
  const seen = preview.value;
  return (
    <>
      {!seen && <p class="lead small">{words.lead}</p>}
      {!seen && <ChooseFile staged={staged} />}
      {!seen && <TroubleNote staged={staged} />}
      {seen?.kind === 'columns' && <Columns key={seen.id} staged={staged} preview={seen} />}
      {seen?.kind === 'notes' && <Notes staged={staged} preview={seen} />}
      {seen?.kind === 'burns' && <Merge key={seen.id} staged={staged} preview={seen} />}
      {!seen && <PasteNotes staged={staged} />}
      <p class="quiet" role="status">
        {busy.value === 'reading' && words.choose.working}
        {busy.value === 'keeping' && words.keeping}
      </p>
    </>
  );
}
