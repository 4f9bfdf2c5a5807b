/** The burn to which readings of a table or of notes belong: a new one with its description, or an existing one. */

import type { VNode } from 'preact';
import { useEffect } from 'preact/hooks';
import type { SaveImport } from '../../../shared/contract/imports.ts';
import { burnDay } from '../../language/burn-day.ts';
import { translateImport } from '../../language/catalogue.ts';
import { burns, loadBurns } from '../../state/burns.ts';
import {
  askedIf,
  type Field,
  figure,
  line,
  type Problems,
  readFields,
  right,
  select,
  wrong,
} from '../forms/field-spec.ts';
import { type DraftProps, fieldViews } from '../forms/use-form.tsx';
import { type AimDraft, aimFields, aimOf, usualAim } from '../new-burn/aim-fields.ts';

interface Asks {
  /** Whether the file contains its date. */
  isDated: boolean;
  /** False where the notes contain the time of lighting. */
  asksLit: boolean;
}

function fieldsOf(draft: Pick<ReadingsDraft, 'into' | 'targetKind' | 'holdS'>, { isDated, asksLit }: Asks) {
  const words = translateImport().burn;
  const isNew = draft.into === '';
  const there = (burns.value ?? []).filter(({ status }) => status !== 'running');
  const aim = aimFields(draft);
  return {
    into: askedIf(
      there.length > 0 || !isNew,
      select({ label: words.into }, [
        ['', words.intoNew],
        ...there.map((burn) => [burn.id, [burn.title, burnDay(burn)].filter(Boolean).join(', ')] as const),
      ]),
    ),
    atElapsedS: askedIf(!isNew, figure({ label: words.at, hint: words.atHint, unit: 'min', factor: 60 })),
    title: askedIf(isNew, line({ label: words.name })),
    startedUtcMs: askedIf(isNew && !isDated, moment({ label: words.began, hint: words.beganHint })),
    litElapsedS: askedIf(isNew && asksLit, figure({ label: words.lit, hint: words.litHint, unit: 'min', factor: 60 })),
    targetKind: askedIf(isNew, aim.targetKind),
    targetTempC: askedIf(isNew && !aim.targetTempC.isHidden, aim.targetTempC),
    holdS: askedIf(isNew, aim.holdS),
    onDrop: askedIf(isNew && !aim.onDrop.isHidden, aim.onDrop),
  };
}

/** Date and time of day, in the format of their field; empty when not known. */
function moment(words: { label: string; hint: string }): Field<number> {
  return {
    ...words,
    looks: 'moment',
    write: () => '',
    read(text) {
      const utcMs = new Date(text).getTime();
      return Number.isNaN(utcMs) ? wrong(translateImport().burn.beganWrong) : right(utcMs);
    },
  };
}

/** As typed. */
export interface ReadingsDraft extends AimDraft {
  /** Identifier of the burn to which they are added; empty for a new one. */
  readonly into: string;
  readonly atElapsedS: string;
  readonly title: string;
  readonly startedUtcMs: string;
  readonly litElapsedS: string;
}

/** @param startClockS time of day of the first reading, where the file contains that and no date */
export function blankBurn(file: string, startClockS: number | undefined): ReadingsDraft {
  return {
    into: '',
    atElapsedS: '',
    title: file.replace(/\.[a-z]{2,4}$/i, '').slice(0, 120),
    startedUtcMs: startClockS === undefined ? '' : lastMomentAt(startClockS),
    litElapsedS: '',
    ...usualAim,
  };
}

/** The last moment at which a clock on the wall showed this time. */
function lastMomentAt(clockS: number): string {
  const now = new Date();
  const moment = new Date(now);
  moment.setHours(0, 0, Math.floor(clockS), 0);
  if (moment > now) moment.setDate(moment.getDate() - 1);
  const two = (value: number) => String(value).padStart(2, '0');
  const date = [moment.getFullYear(), two(moment.getMonth() + 1), two(moment.getDate())].join('-');
  return `${date}T${[moment.getHours(), moment.getMinutes(), moment.getSeconds()].map(two).join(':')}`;
}

export function readBurn(
  draft: ReadingsDraft,
  asks: Asks,
): { ok: true; value: Partial<SaveImport> } | { ok: false; problems: Problems } {
  const read = readFields(fieldsOf(draft, asks), draft);
  if (!read.ok) return read;
  const { targetKind, targetTempC, holdS, onDrop, ...own } = read.values;
  const { target, hold } = aimOf(read.values);
  return {
    ok: true,
    value: { ...own, ...(target.kind === 'temperature' && { target }), ...(hold && { hold }) },
  };
}

export function BurnOfReadings({ isDated, asksLit, ...props }: DraftProps<ReadingsDraft> & Asks): VNode {
  const words = translateImport().burn;
  useEffect(() => {
    if (!burns.peek()) void loadBurns().catch(() => undefined);
  }, []);
  const fields = fieldsOf(props.draft, { isDated, asksLit });
  const field = fieldViews(fields, props);
  return (
    <fieldset class="group">
      <legend>{words.title}</legend>
      <div class="fields">{(Object.keys(fields) as (keyof typeof fields)[]).map((key) => field(key))}</div>
      <p class="quiet">{words.afterwards}</p>
    </fieldset>
  );
}
