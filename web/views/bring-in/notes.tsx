/** Readings from a notebook: the text, and what each line was understood to say. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { ImportPreview, NotesFormat } from '../../../shared/contract/imports.ts';
import { say, sayBringIn } from '../../state/catalogue.ts';
import { SelectField, TextField } from '../kit/field.tsx';
import { BurnOfReadings, blankBurn, readBurn } from './burn-of-readings.tsx';
import { notesFile } from './choose.tsx';
import { FileEnd } from './file-end.tsx';
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
  const burn = useSignal(blankBurn(preview.file, startClockS));
  const tried = useSignal(false);
  const said = useSignal<readonly string[]>([]);
  const names = format.names.map((name, place) => said.value[place] ?? name);
  const isDated = false;
  const read = readBurn(burn.value, { isDated });
  const isNamed = names.every((name) => name.trim() !== '');
  const wrong = lines.filter(({ problem }) => problem !== undefined && problem !== 'empty');
  return (
    <form
      class="bring-form"
      onSubmit={(event) => {
        event.preventDefault();
        tried.value = true;
        if (read.ok && isNamed) void staged.keep({ notes: { ...format, names }, ...read.value });
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
        onLook={(next) => void staged.look({ notes: next })}
        onNames={(next) => {
          said.value = next;
        }}
      />
      <BurnOfReadings
        draft={burn.value}
        problems={tried.value && !read.ok ? read.problems : {}}
        isDated={isDated}
        asksLit={!lines.some(({ mark }) => mark === 'lit')}
        onChange={(fields) => {
          burn.value = { ...burn.value, ...fields };
        }}
      />
      <FileEnd
        staged={staged}
        keep={burn.value.into === '' ? words.keepBurn : words.keepInto}
        problem={tried.value && !isNamed ? words.table.nameMissing : undefined}
      />
    </form>
  );
}

/** The notes as they were handed over, to be mended and looked at again. */
function TheText({ staged }: { staged: Staged }): VNode {
  const words = sayBringIn();
  const typed = useSignal<string | undefined>(undefined);
  const { handed } = staged;
  useEffect(() => {
    void handed.value?.content.text().then((text) => {
      typed.value = text;
    });
  }, [handed.value]);
  return (
    <>
      <TextField
        label={words.notes.text}
        lines={Math.min(14, Math.max(4, (typed.value ?? '').split('\n').length + 1))}
        value={typed.value ?? ''}
        onInput={(text) => {
          typed.value = text;
        }}
      />
      <p class="row">
        <button
          type="button"
          disabled={staged.busy.value !== undefined}
          onClick={() => void staged.send(notesFile(typed.value ?? ''), 'notes')}
        >
          {words.notes.again}
        </button>
        <button
          type="button"
          class="plain"
          disabled={staged.busy.value !== undefined}
          onClick={() => handed.value && void staged.send(handed.value, 'columns')}
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
            hint={place === 0 ? say().read.roles.water : undefined}
            value={name}
            onInput={(next) => onNames(format.names.map((each, other) => (other === place ? next : each)))}
          />
        ))}
      </div>
    </fieldset>
  );
}
