/** The source of the data: a file chosen or dropped, or notes pasted. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useId } from 'preact/hooks';
import { translateImport } from '../../language/catalogue.ts';
import { notesFile } from '../../requests/imports.ts';
import { TextField } from '../forms/field.tsx';
import type { Staged } from './use-staged.ts';

export function ChooseFile({ staged }: { staged: Staged }): VNode {
  const words = translateImport().choose;
  const id = useId();
  const isOver = useSignal(false);
  const take = (file: File | undefined) => {
    if (file) void staged.send({ content: file, name: file.name });
  };
  return (
    <section
      class={isOver.value ? 'drop-here over' : 'drop-here'}
      aria-labelledby={`${id}-label`}
      onDragOver={(event) => {
        event.preventDefault();
        isOver.value = true;
      }}
      onDragLeave={() => {
        isOver.value = false;
      }}
      onDrop={(event) => {
        event.preventDefault();
        isOver.value = false;
        take(event.dataTransfer?.files[0]);
      }}
    >
      <input
        id={id}
        class="unseen"
        type="file"
        accept=".zip,.json,.csv,.tsv,.txt,.dat,.log,text/*,application/json,application/zip"
        disabled={staged.busy.value !== undefined}
        aria-describedby={`${id}-hint`}
        onChange={(event) => {
          take(event.currentTarget.files?.[0]);
          // Choosing the same file again must read it again: it may have been corrected meanwhile.
          event.currentTarget.value = '';
        }}
      />
      <label for={id} id={`${id}-label`} class="button">
        {words.file}
      </label>
      <span class="drop-word">{words.drop}</span>
      <p class="hint" id={`${id}-hint`}>
        {words.hint}
      </p>
    </section>
  );
}

export function PasteNotes({ staged }: { staged: Staged }): VNode {
  const words = translateImport().choose;
  const { work, busy } = staged;
  const { text } = work.value;
  const isEmpty = useSignal(false);
  return (
    <form
      class="paste"
      onSubmit={(event) => {
        event.preventDefault();
        isEmpty.value = text.trim() === '';
        if (!isEmpty.value) void staged.send(notesFile(text));
      }}
    >
      <TextField
        label={words.paste}
        hint={words.pasteHint}
        lines={6}
        value={text}
        problem={isEmpty.value ? words.nothing : undefined}
        onInput={(typed) => staged.update({ text: typed })}
      />
      <button type="submit" disabled={busy.value !== undefined}>
        {words.look}
      </button>
    </form>
  );
}
