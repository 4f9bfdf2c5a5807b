/** What each remark of the notes becomes, to be changed or rejected before anything is saved. */
import type { VNode } from 'preact';
import type { EnteredMark, NoteLine } from '../../../shared/contract/imports.ts';
import { noteMarks, weighedNoteMarks } from '../../../shared/contract/mark-kinds.ts';
import { translate, translateImport } from '../../language/catalogue.ts';
import { type Entry, number, readQuantity, typed, unit } from '../../language/figures.ts';
import { SelectField, TextField } from '../forms/field.tsx';
import { type OfLine, type RemarkDraft, stillEntered } from './import-work.ts';

type Entered = readonly OfLine<RemarkDraft>[] | undefined;

/** What a line becomes: as chosen, else as interpreted. */
export function remarkOf({ line, text, mark, massKg }: NoteLine, written: Entered): RemarkDraft {
  const changed = written?.find((one) => one.line === line && one.text === text);
  return changed ?? { mark: mark ?? 'none', mass: typed('mass', massKg) };
}

const isWeighed = (mark: RemarkDraft['mark']): mark is (typeof weighedNoteMarks)[number] =>
  (weighedNoteMarks as readonly string[]).includes(mark);

/** The marks changed by the person; or the lines with an invalid mass. */
export function readRemarks(
  lines: readonly NoteLine[],
  written: Entered,
): { ok: true; value: EnteredMark[] } | { ok: false; lines: number[] } {
  const marks: EnteredMark[] = [];
  const wrong: number[] = [];
  for (const line of lines) {
    const draft = stillEntered(written, [line])[0];
    if (!draft) continue;
    const { mark } = draft;
    const mass = massOf(draft, line);
    if (!mass.ok) wrong.push(line.line);
    else if (mark === (line.mark ?? 'none') && mass.value === line.massKg) continue;
    else if (isWeighed(mark))
      marks.push({ line: line.line, mark, ...(mass.value !== undefined && { massKg: mass.value }) });
    else marks.push({ line: line.line, mark });
  }
  return wrong.length > 0 ? { ok: false, lines: wrong } : { ok: true, value: marks };
}

/** An unchanged mass stays exact; a mark without a weighed mass has none. */
function massOf({ mark, mass }: RemarkDraft, { massKg }: NoteLine): Entry<number | undefined> {
  if (!isWeighed(mark) || mass.trim() === '') return { ok: true, value: undefined };
  if (mass === typed('mass', massKg)) return { ok: true, value: massKg };
  return readQuantity('mass', mass, { positive: true, high: 500 });
}

export function NoteRemarks({
  lines,
  entered: written,
  onEnter,
}: {
  lines: readonly NoteLine[];
  entered: Entered;
  onEnter: (written: OfLine<RemarkDraft>[]) => void;
}): VNode | null {
  const words = translateImport().notes;
  const shown = lines.filter(({ note }) => note !== undefined);
  if (shown.length === 0) return null;
  const put = ({ line, text }: NoteLine, draft: RemarkDraft) =>
    onEnter([...stillEntered(written, lines).filter((one) => one.line !== line), { line, text, ...draft }]);
  const open = shown.filter((line) => openDoubtsOf(line, written).length > 0).length;
  return (
    <section aria-labelledby="note-remarks-title">
      <h2 id="note-remarks-title">{words.remarks}</h2>
      <p class="lead small">
        {words.remarksIntro} {open > 0 && <b>{words.unclear({ count: open })}</b>}
      </p>
      <ol class="note-remarks">
        {shown.map((line) => (
          <OneRemark
            key={`${line.line} ${line.text}`}
            line={line}
            entered={written}
            onEnter={(draft) => put(line, draft)}
          />
        ))}
      </ol>
    </section>
  );
}

function OneRemark({
  line,
  entered: written,
  onEnter,
}: {
  line: NoteLine;
  entered: Entered;
  onEnter: (draft: RemarkDraft) => void;
}): VNode {
  const words = translateImport().notes;
  const names = translate().marks.names;
  const draft = remarkOf(line, written);
  const mass = massOf(draft, line);
  const doubts = openDoubtsOf(line, written);
  return (
    <li class={doubts.length > 0 ? 'doubtful' : ''}>
      <p class="remark-said">
        <span class="quiet">
          {line.elapsedS === undefined
            ? words.remarkNoTime({ line: line.line })
            : words.remark({ line: line.line, minute: number(line.elapsedS / 60, 1) })}
        </span>{' '}
        <q>{line.note}</q>
      </p>
      <div class="remark-becomes">
        <SelectField
          label={words.becomes}
          value={draft.mark}
          options={[...noteMarks.map((mark) => [mark, names[mark]] as const), ['none', words.none]]}
          onChange={(mark) => onEnter({ ...draft, mark })}
        />
        {isWeighed(draft.mark) && (
          <TextField
            decimal
            label={words.fedMass}
            unit={unit('mass')}
            value={draft.mass}
            problem={mass.ok ? undefined : mass.problem}
            onInput={(typedMass) => onEnter({ ...draft, mass: typedMass })}
          />
        )}
      </div>
      {doubts.length > 0 && (
        <ul class="remarks">
          {doubts.map((doubt) => (
            <li key={doubt}>{translateImport().review.noteDoubts[doubt]}</li>
          ))}
        </ul>
      )}
    </li>
  );
}

/** Doubts about the action end once the person has chosen it; those about times and readings do not. */
function openDoubtsOf(line: NoteLine, written: Entered) {
  const doubts = line.doubts ?? [];
  const stays = ['value', 'clockSet'];
  return stillEntered(written, [line]).length > 0 ? doubts.filter((doubt) => stays.includes(doubt)) : doubts;
}
