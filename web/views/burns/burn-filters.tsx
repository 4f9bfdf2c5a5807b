/** Searching, filtering and sorting the list of burns. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useMemo } from 'preact/hooks';
import type { BurnSummary } from '../../../shared/contract/burns.ts';
import { translate } from '../../language/catalogue.ts';
import { text } from '../../language/figures.ts';
import { units } from '../../preferences/preferences.ts';
import { SelectField, TextField } from '../forms/field.tsx';
import { resultName } from '../kit/result-words.ts';
import { useWide } from '../kit/use-wide.ts';
import { type BurnFilter, burnOrders, noFilter, targetKey } from './burn-groups.ts';

type Options = readonly (readonly [string, string])[];

/** Offers only values that occur in the burns; a selected one stays, even when its last burn is gone. */
export function BurnFilters({
  all,
  filter,
  onFilter,
}: {
  all: readonly BurnSummary[];
  filter: BurnFilter;
  onFilter: (filter: BurnFilter) => void;
}): VNode {
  const words = translate().burns.list;
  const isWide = useWide();
  // A letter typed into the search changes none of them.
  const choices = useMemo(() => choicesOf(all, filter.stove), [all, filter.stove, words, units.value]);
  const inForce = choices.filter(([field]) => filter[field] !== noFilter[field]);
  const isOpen = useSignal(inForce.length > 0);
  const fields = (
    <div class="filters">
      {choices
        .filter(([field, , options]) => options.length > 1 || filter[field] !== '')
        .map(([field, label, options]) => (
          <SelectField
            key={field}
            label={label}
            value={filter[field]}
            options={[['', words.all], ...options]}
            onChange={(chosen) => onFilter({ ...filter, [field]: chosen, ...(field === 'stove' && { revision: '' }) })}
          />
        ))}
      <SelectField
        label={words.order}
        value={filter.order}
        options={burnOrders.map(
          (order) => [order, order === 'newest' || order === 'oldest' ? words[order] : resultName(order)] as const,
        )}
        onChange={(order) => onFilter({ ...filter, order })}
      />
    </div>
  );
  return (
    <search class="burn-search">
      <TextField label={words.search} value={filter.search} onInput={(search) => onFilter({ ...filter, search })} />
      {isWide ? (
        fields
      ) : (
        <details
          open={isOpen.value}
          onToggle={(event) => {
            isOpen.value = event.currentTarget.open;
          }}
        >
          <summary>{inForce.length > 0 ? words.filtersOn({ count: inForce.length }) : words.filters}</summary>
          {fields}
        </details>
      )}
    </search>
  );
}

type Choice = readonly [Exclude<keyof BurnFilter, 'search' | 'order'>, string, Options];

function choicesOf(all: readonly BurnSummary[], stoveId: string): readonly Choice[] {
  const words = translate().burns.list;
  const ofStove = all.filter(({ stove }) => stoveId === '' || stove?.id === stoveId);
  return [
    ['stove', words.filterStove, namesOf(all, ({ stove }) => (stove ? [[stove.id, stove.name]] : []))],
    [
      'revision',
      words.filterRevision,
      namesOf(ofStove, ({ revision }) => (revision ? [[revision.id, revision.label]] : [])),
    ],
    ['fuel', words.filterFuel, namesOf(all, ({ fuelLots }) => fuelLots.map(({ id, name }) => [id, name] as const))],
    ['target', words.filterTarget, namesOf(all, (burn) => [[targetKey(burn), targetName(burn)]])],
    ['status', words.filterStatus, namesOf(all, ({ status }) => [[status, words.status[status]]])],
  ];
}

function targetName({ target }: BurnSummary): string {
  return target.kind === 'boil' ? translate().burns.list.toBoil : text('temperature', target.tempC, 0);
}

function namesOf(
  all: readonly BurnSummary[],
  pick: (burn: BurnSummary) => readonly (readonly [string, string])[],
): (readonly [string, string])[] {
  return [...new Map(all.flatMap(pick))].sort(([, a], [, b]) => a.localeCompare(b));
}
