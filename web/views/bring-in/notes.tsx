/** Readings from a notebook: the text, and what each line was understood to say. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { ImportPreview, NotesFormat } from '../../../shared/contract/imports.ts';
import { sayBringIn } from '../../state/catalogue.ts';
import { notesFile } from '../../state/imports.ts';
import { SelectField, TextField } from '../kit/field.tsx';
import { BurnOfReadings, blankBurn, readBurn } from './burn-of-readings.tsx';
import { FileEnd } from './file-end.tsx';
import { focusFirstWrong } from './focus-first-wrong.ts';
import { NoteLines } from './note-lines.tsx';
import type { Staged } from './use-staged.ts';

export function Notes({
  staged,
  preview,
}: {
  staged: Staged;
  preview: Extract<ImportPreview, { kind: 'notes' }>;
}): VNode {
  const words = sayBringIn();
  const { format, lines, startClockS } = preview.notes;
  const { work, say: tell } = staged;
  const burn = { ...blankBurn(preview.file, startClockS), ...work.value.burn };
  const names = format.names.map((_, place) => work.value.names?.[place] ?? words.notes.usualName({ place }));
  const tried = useSignal(false);
  const isDated = false;
  const read = readBurn(burn, { isDated });
  const isNamed = names.every((name) => name.trim() !== '');
  const wrong = lines.filter(({ problem }) => problem !== undefined && problem !== 'empty');
  return (
    <form
      class="bring-form"
      onSubmit={(event) => {
        event.preventDefault();
        tried.value = true;
        if (read.ok && isNamed) void staged.keep({ notes: { ...format, names }, ...read.value });
        else focusFirstWrong(event.currentTarget);
      }}
    >
      <TheText staged={staged} />
      <p class="lead small">{words.notes.lead({ count: lines.length })}</p>
      {wrong.length > 0 && (
        <section aria-live="polite">
          <p class="problem">{words.notes.wrong}</p>
          <ul class="remarks">
            {wrong.map(({ line, problem }) => (
              <li key={line}>{words.notes.line({ line, problem: problem ? words.noteProblems[problem] : '' })}</li>
            ))}
          </ul>
        </section>
      )}
      <NoteLines notes={preview.notes} names={names} />
      <Reading
        format={{ ...format, names }}
        onLook={({ time, unit }) => {
          tell({ notes: { time, unit } });
          void staged.look({ notes: { ...format, time, unit } });
        }}
        onNames={(next) => tell({ names: next })}
      />
      <BurnOfReadings
        draft={burn}
        problems={tried.value && !read.ok ? read.problems : {}}
        isDated={isDated}
        asksLit={!lines.some(({ mark }) => mark === 'lit')}
        onChange={(fields) => tell({ burn: { ...work.value.burn, ...fields } })}
      />
      <FileEnd
        staged={staged}
        keep={burn.into === '' ? words.keepBurn : words.keepInto}
        problem={tried.value ? problemOf({ isNamed, isRead: read.ok }) : undefined}
      />
    </form>
  );
}

function problemOf({ isNamed, isRead }: { isNamed: boolean; isRead: boolean }): string | undefined {
  const words = sayBringIn();
  if (!isNamed) return words.table.nameMissing;
  return isRead ? undefined : words.burn.wrong;
}

/** The notes as they were handed over, to be mended and looked at again. */
function TheText({ staged }: { staged: Staged }): VNode {
  const words = sayBringIn();
  const { work, busy } = staged;
  const { text } = work.value;
  return (
    <>
      <TextField
        label={words.notes.text}
        lines={Math.min(14, Math.max(4, text.split('\n').length + 1))}
        value={text}
        onInput={(typed) => staged.say({ text: typed })}
      />
      <p class="row">
        <button type="button" disabled={busy.value !== undefined} onClick={() => void staged.sendNotes()}>
          {words.notes.again}
        </button>
        <button
          type="button"
          class="plain"
          disabled={busy.value !== undefined}
          onClick={() => void staged.send({ ...notesFile(text), as: 'columns' })}
        >
          {words.choose.asTable}
        </button>
      </p>
    </>
  );
}

function Reading({
  format,
  onLook,
  onNames,
}: {
  format: NotesFormat;
  onLook: (format: NotesFormat) => void;
  onNames: (names: string[]) => void;
}): VNode {
  const words = sayBringIn();
  return (
    <fieldset class="group">
      <legend>{words.table.reading}</legend>
      <div class="fields">
        <SelectField
          label={words.notes.time}
          value={format.time}
          options={(['clock', 'minutes', 'h:mm'] as const).map((time) => [time, words.notes.times[time]])}
          onChange={(time) => onLook({ ...format, time })}
        />
        <SelectField
          label={words.notes.unit}
          value={format.unit}
          options={(['Cel', '[degF]'] as const).map((unit) => [unit, words.units[unit]])}
          onChange={(unit) => onLook({ ...format, unit })}
        />
        {format.names.map((name, place) => (
          <TextField
            key={place}
            label={words.notes.name({ number: place + 1 })}
            hint={place === 0 ? words.notes.inWater : undefined}
            value={name}
            problem={name.trim() === '' ? words.table.nameMissing : undefined}
            onInput={(next) => onNames(format.names.map((each, other) => (other === place ? next : each)))}
          />
        ))}
      </div>
    </fieldset>
  );
}
