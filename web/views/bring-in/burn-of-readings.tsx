/** The burn that readings of a table or of notes belong to: a new one with what is known of it, or one that is here. */
import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { KeepImport } from '../../../shared/contract/imports.ts';
import { burns, loadBurns } from '../../state/burns.ts';
import { translate, translateBringIn } from '../../state/catalogue.ts';
import { day, type Entry, readNumber, readQuantity } from '../../state/figures.ts';
import { AimFields } from '../describe/aim-fields.tsx';
import { type DraftProps, draftFields } from '../kit/draft-fields.tsx';
import { MomentField, SelectField } from '../kit/field.tsx';

/** As typed. */
export interface ReadingsDraft {
  /** Identifier of the burn they go into; empty for a new one. */
  readonly into: string;
  readonly atMinutes: string;
  readonly title: string;
  /** As a field of date and time writes it; empty when not known. */
  readonly began: string;
  readonly litMinutes: string;
  readonly targetKind: 'boil' | 'temperature';
  readonly targetTemp: string;
  readonly holdMinutes: string;
  readonly onDrop: 'pause' | 'restart';
}

export type ReadingsProblems = Partial<Record<keyof ReadingsDraft, string>>;

/** @param startClockS time of day of the first reading, where the file tells that and no date */
export function blankBurn(file: string, startClockS: number | undefined): ReadingsDraft {
  return {
    into: '',
    atMinutes: '',
    title: file.replace(/\.[a-z]{2,4}$/i, '').slice(0, 120),
    began: startClockS === undefined ? '' : lastMomentAt(startClockS),
    litMinutes: '',
    targetKind: 'boil',
    targetTemp: '',
    holdMinutes: '',
    onDrop: 'pause',
  };
}

/** The last time a clock on the wall showed this. */
function lastMomentAt(clockS: number): string {
  const now = new Date();
  const moment = new Date(now);
  moment.setHours(0, 0, Math.floor(clockS), 0);
  if (moment > now) moment.setDate(moment.getDate() - 1);
  const two = (value: number) => String(value).padStart(2, '0');
  const date = [moment.getFullYear(), two(moment.getMonth() + 1), two(moment.getDate())].join('-');
  return `${date}T${[moment.getHours(), moment.getMinutes(), moment.getSeconds()].map(two).join(':')}`;
}

type Read = { ok: true; value: Partial<KeepImport> } | { ok: false; problems: ReadingsProblems };

export function readBurn(draft: ReadingsDraft, { isDated }: { isDated: boolean }): Read {
  const problems: { -readonly [K in keyof ReadingsProblems]: string } = {};
  const take = <T,>(field: keyof ReadingsDraft, read: () => Entry<T>): T | undefined => {
    if (draft[field].trim() === '') return undefined;
    const entry = read();
    if (entry.ok) return entry.value;
    problems[field] = entry.problem;
    return undefined;
  };
  const minutes = (field: 'atMinutes' | 'litMinutes') => take(field, () => readNumber(draft[field]));
  if (draft.into !== '') {
    const at = minutes('atMinutes');
    if (problems.atMinutes) return { ok: false, problems };
    return { ok: true, value: { into: draft.into, ...(at !== undefined && { atElapsedS: at * 60 }) } };
  }
  const words = translate().describe.number;
  const began = isDated ? undefined : new Date(draft.began).getTime();
  if (began !== undefined && draft.began !== '' && Number.isNaN(began))
    problems.began = translateBringIn().burn.beganWrong;
  const lit = minutes('litMinutes');
  const hold = take('holdMinutes', () => {
    const read = readNumber(draft.holdMinutes);
    return read.ok && read.value <= 0 ? { ok: false as const, problem: words.notPositive } : read;
  });
  const isWarm = draft.targetKind === 'temperature';
  const temp = isWarm
    ? take('targetTemp', () => readQuantity('temperature', draft.targetTemp, { low: 20, high: 300 }))
    : undefined;
  if (isWarm && temp === undefined) problems.targetTemp ??= words.blank;
  if (Object.keys(problems).length > 0) return { ok: false, problems };
  return {
    ok: true,
    value: {
      ...(draft.title.trim() !== '' && { title: draft.title.trim() }),
      ...(began !== undefined && !Number.isNaN(began) && { startedUtcMs: began }),
      ...(lit !== undefined && { litElapsedS: lit * 60 }),
      ...(temp !== undefined && { target: { kind: 'temperature' as const, tempC: temp } }),
      ...(hold !== undefined && { hold: { durationS: hold * 60, onDrop: draft.onDrop } }),
    },
  };
}

interface FieldsProps extends DraftProps<ReadingsDraft> {
  isDated: boolean;
  /** Not where the notes say it. */
  asksLit: boolean;
}

export function BurnOfReadings(props: FieldsProps): VNode {
  const { draft, onChange } = props;
  const words = translateBringIn().burn;
  useEffect(() => {
    if (!burns.peek()) void loadBurns().catch(() => undefined);
  }, []);
  const there = (burns.value ?? []).filter(({ status }) => status !== 'running');
  return (
    <fieldset class="group">
      <legend>{words.title}</legend>
      <div class="fields">
        {there.length > 0 && (
          <SelectField
            label={words.into}
            value={draft.into}
            options={[
              ['', words.intoNew],
              ...there.map(
                ({ id, title, startedUtcMs }) =>
                  [id, [title, startedUtcMs !== undefined && day(startedUtcMs)].filter(Boolean).join(', ')] as const,
              ),
            ]}
            onChange={(into) => onChange({ into })}
          />
        )}
        {draft.into === '' ? (
          <NewBurn {...props} />
        ) : (
          draftFields(props).figure('atMinutes', words.at, 'min', { hint: words.atHint })
        )}
      </div>
      <p class="quiet">{words.afterwards}</p>
    </fieldset>
  );
}

function NewBurn({ isDated, asksLit, ...props }: FieldsProps): VNode {
  const { draft, problems, onChange } = props;
  const words = translateBringIn().burn;
  const { line, figure } = draftFields(props);
  return (
    <>
      {line('title', words.name)}
      {!isDated && (
        <MomentField
          label={words.began}
          hint={words.beganHint}
          value={draft.began}
          problem={problems.began}
          onInput={(began) => onChange({ began })}
        />
      )}
      {asksLit && figure('litMinutes', words.lit, 'min', { hint: words.litHint })}
      <AimFields {...props} />
    </>
  );
}
