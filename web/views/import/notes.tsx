/** Readings from a notebook: the text, and the interpretation of each line. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { ClockStep, ImportPreview, NoteLine, NotesFormat } from '../../../shared/contract/imports.ts';
import { translateImport } from '../../language/catalogue.ts';
import { notesFile } from '../../requests/imports.ts';
import { SelectField, TextField } from '../forms/field.tsx';
import { focusFirstWrong } from '../forms/focus-first-wrong.ts';
import { BurnOfReadings, blankBurn, readBurn } from './burn-of-readings.tsx';
import { ClockSets } from './clock-sets.tsx';
import { FileEnd } from './file-end.tsx';
import { stepsOf, stillEntered } from './import-work.ts';
import { NoteLines } from './note-lines.tsx';
import { NoteRemarks, readRemarks, remarkOf } from './note-remarks.tsx';
import type { Staged } from './use-staged.ts';

export function Notes({
  staged,
  preview,
}: {
  staged: Staged;
  preview: Extract<ImportPreview, { kind: 'notes' }>;
}): VNode {
  const words = translateImport();
  const { format, lines, startClockS } = preview.notes;
  const { work, update } = staged;
  const burn = { ...blankBurn(preview.file, startClockS), ...work.value.burn };
  const names = format.names.map((_, index) => work.value.names?.[index] ?? words.notes.usualName({ place: index }));
  const tried = useSignal(false);
  const isLitEntered = lines.some((line) => remarkOf(line, work.value.remarks).mark === 'lit');
  const asks = { isDated: false, asksLit: !isLitEntered };
  const read = readBurn(burn, asks);
  const isNamed = names.every((name) => name.trim() !== '');
  const wrong = lines.filter(({ problem }) => problem !== undefined && problem !== 'empty');
  const remarks = readRemarks(lines, work.value.remarks);
  const steps = stillEntered(work.value.clockSteps, lines);
  const sets = [...steps, ...lines.flatMap(setIn)].sort((a, b) => a.line - b.line);
  const as = (change: Partial<NotesFormat>): NotesFormat => {
    const { clockSteps: _before, ...rest } = format;
    return { ...rest, ...stepsOf(work.peek().clockSteps, lines), ...change };
  };
  return (
    <form
      class="bring-form"
      onSubmit={(event) => {
        event.preventDefault();
        tried.value = true;
        if (read.ok && isNamed && remarks.ok) {
          const marks = remarks.value.length > 0 && { marks: remarks.value };
          void staged.save({ notes: as({ names, ...marks }), ...read.value });
        } else focusFirstWrong(event.currentTarget);
      }}
    >
      <TheText staged={staged} />
      <p class="lead small">{words.notes.intro({ count: lines.length })}</p>
      {wrong.length > 0 && (
        <section aria-live="polite">
          <p class="problem">{words.notes.wrong}</p>
          <ul class="remarks">
            {wrong.map(({ line, problem }) => (
              <li key={line}>
                {words.notes.line({ line, problem: problem ? words.review.noteProblems[problem] : '' })}
              </li>
            ))}
          </ul>
        </section>
      )}
      {sets.length > 0 && (
        <section>
          <p>{words.review.noteDoubts.clockSet}</p>
          <ClockSets
            sets={sets}
            steps={steps}
            onChange={(next) => {
              update({ clockSteps: next.map((step) => ({ ...step, text: textOf(step.line, lines) })) });
              void staged.look({ notes: as({}) });
            }}
          />
        </section>
      )}
      <NoteRemarks lines={lines} entered={work.value.remarks} onEnter={(next) => update({ remarks: next })} />
      <NoteLines notes={preview.notes} names={names} />
      <Reading
        format={{ ...format, names }}
        onLook={({ time, unit }) => {
          update({ notes: { time, unit } });
          void staged.look({ notes: as({ time, unit }) });
        }}
        onNames={(next) => update({ names: next })}
      />
      <BurnOfReadings
        draft={burn}
        problems={tried.value && !read.ok ? read.problems : {}}
        {...asks}
        onChange={(fields) => update({ burn: { ...work.value.burn, ...fields } })}
      />
      <FileEnd
        staged={staged}
        saveLabel={burn.into === '' ? words.importBurn : words.importInto}
        problem={tried.value ? problemOf({ isNamed, isRead: read.ok && remarks.ok }) : undefined}
      />
    </form>
  );
}

function problemOf({ isNamed, isRead }: { isNamed: boolean; isRead: boolean }): string | undefined {
  const words = translateImport();
  if (!isNamed) return words.table.nameMissing;
  return isRead ? undefined : words.burn.wrong;
}

/** A line before which the clock may have been changed. */
function setIn({ line, doubts, problem }: NoteLine): ClockStep[] {
  return doubts?.includes('clockSet') ? [{ line, byS: problem === 'laterTime' ? -HOUR_S : HOUR_S }] : [];
}

const HOUR_S = 3600;

const textOf = (line: number, lines: readonly NoteLine[]) => lines.find((each) => each.line === line)?.text ?? '';

/** The notes as sent, to be corrected and previewed again. */
function TheText({ staged }: { staged: Staged }): VNode {
  const words = translateImport();
  const { work, busy } = staged;
  const { text } = work.value;
  return (
    <>
      <TextField
        label={words.notes.text}
        lines={Math.min(14, Math.max(4, text.split('\n').length + 1))}
        value={text}
        onInput={(typed) => staged.update({ text: typed })}
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
  const words = translateImport();
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
        {format.names.map((name, index) => (
          <TextField
            key={index}
            label={words.notes.name({ number: index + 1 })}
            hint={index === 0 ? words.notes.inWater : undefined}
            value={name}
            problem={name.trim() === '' ? words.table.nameMissing : undefined}
            onInput={(next) => onNames(format.names.map((each, other) => (other === index ? next : each)))}
          />
        ))}
      </div>
    </fieldset>
  );
}
