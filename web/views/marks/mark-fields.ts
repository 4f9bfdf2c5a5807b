/** The correctable fields of a mark: its moment, its measured values, its text. */

import type { Mark } from '../../../shared/contract/marks.ts';
import type { Problem } from '../../../shared/contract/problem.ts';
import { translate } from '../../language/catalogue.ts';
import { number } from '../../language/figures.ts';
import { channelOf } from '../../state/open-burn.ts';
import { askedIf, type Field, figure, line, needed, quantity, right, select } from '../forms/field-spec.ts';
import { lotName } from '../forms/lot-field.tsx';
import { readingField } from '../forms/reading-field.ts';

/**
 * @param lotIds lots of the burn
 * @param zeroUs zero of the minutes
 */
export function markFields(mark: Mark, lotIds: readonly string[], zeroUs: number) {
  const words = translate().marks;
  const probe = mark.kind === 'reading' ? channelOf(mark.channelId) : undefined;
  const isWood = mark.kind === 'fed' || mark.kind === 'logOut';
  const isWeighed = 'massKg' in mark && mark.massKg !== undefined;
  const mass = quantity('mass', { label: translate().other.mass, positive: true });
  return {
    elapsedUs: needed(minute(zeroUs === 0 ? words.minutesFromStart : words.minutesFromLit, zeroUs)),
    // A weighed mass cannot be removed by a correction.
    massKg: askedIf('massKg' in mark || isWood, isWeighed ? needed(mass) : mass),
    fuelLotId: askedIf(
      isWood && lotIds.length > 1,
      select(
        { label: translate().feed.lot },
        lotIds.map((id) => [id, lotName(id)]),
      ),
    ),
    value: askedIf(probe !== undefined, probe ? needed(readingField(probe)) : figure({ label: '' })),
    note: line({ label: words.names.note, lines: 2 }),
  };
}

export type MarkFields = ReturnType<typeof markFields>;

function minute(label: string, zeroUs: number): Field<number> {
  const minutes = figure({ label, unit: 'min', factor: 60e6 });
  return {
    ...minutes,
    write: (us) => number((us - zeroUs) / 60e6, 1),
    read(text) {
      const entry = minutes.read(text);
      return entry.ok ? right(Math.round(zeroUs + entry.value)) : entry;
    },
  };
}

/** The field concerned by a refusal of the service; undefined for one about the mark as a whole. */
export function refusedField({ code }: Problem): keyof MarkFields | undefined {
  if (code === 'mark/in-the-future') return 'elapsedUs';
  if (code === 'mark/reading-impossible') return 'value';
  return code.startsWith('weighing/more-') ? 'massKg' : undefined;
}
