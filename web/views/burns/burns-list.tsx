/** All burns, newest first, each with its small curve; ticked ones can be drawn together. */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { BurnSummary } from '../../../shared/contract/burns.ts';
import { revisionName } from '../../../shared/language/revision-name.ts';
import { usualOptions } from '../../addresses/compare-route.ts';
import { routeHash } from '../../addresses/router.ts';
import { translate, translateImport } from '../../language/catalogue.ts';
import { day, duration, text } from '../../language/figures.ts';
import { burns, loadBurns } from '../../state/burns.ts';
import { go } from '../../state/route.ts';
import { SelectField } from '../forms/field.tsx';
import { useDraft } from '../forms/use-draft.ts';
import { Fetching } from '../kit/fetching.tsx';
import { useLoad } from '../kit/use-load.ts';
import { SmallCurve } from './small-curve.tsx';

export function BurnsList(): VNode {
  const loading = useLoad('burns', loadBurns);
  // Kept while the person looks at a burn and comes back.
  const { draft: filter } = useDraft<Filter>('burns.filter', noFilter);
  const ticked = useSignal<readonly string[]>([]);
  const all = burns.value;
  if (!all) return <Fetching of={loading} />;
  const words = translate().burns.list;
  const shown = all.filter((burn) => matches(burn, filter.value));
  const spanS = Math.max(3600, ...all.map(({ curve, durationS }) => durationS ?? curve.at(-1)?.[0] ?? 0));
  const tick = (id: string) => (on: boolean) => {
    ticked.value = on ? [...ticked.value, id] : ticked.value.filter((other) => other !== id);
  };
  return (
    <div class="page">
      <header class="page-head">
        <h1>{words.title}</h1>
        <p class="row">
          <a href={routeHash({ at: 'bringIn' })}>{translateImport().link}</a>
          <a class="button" href={routeHash({ at: 'describe' })}>
            {translate().now.newBurn}
          </a>
        </p>
      </header>
      {all.length === 0 ? (
        <p>{words.none}</p>
      ) : (
        <>
          <Filters
            all={all}
            filter={filter.value}
            onFilter={(next) => {
              filter.value = next;
            }}
          />
          {shown.length === 0 && (
            <p>
              {words.noneMatch}{' '}
              <button
                type="button"
                onClick={() => {
                  filter.value = noFilter;
                }}
              >
                {words.clear}
              </button>
            </p>
          )}
          <ul class="burns">
            {shown.map((burn) => (
              <BurnLine
                key={burn.id}
                burn={burn}
                spanS={spanS}
                isTicked={ticked.value.includes(burn.id)}
                onTick={tick(burn.id)}
              />
            ))}
          </ul>
          {shown.length > 0 && <p class="quiet">{words.scale({ span: duration(spanS) })}</p>}
          <div class="compare-bar">
            <button
              type="button"
              class="primary"
              disabled={ticked.value.length < 2}
              onClick={() => go({ at: 'overlay', ids: [...ticked.value] })}
            >
              {words.compare}
            </button>
            {ticked.value.length < 2 ? (
              <span class="quiet">{words.compareHint}</span>
            ) : (
              <AsRevisions burns={all.filter(({ id }) => ticked.value.includes(id))} />
            )}
          </div>
        </>
      )}
    </div>
  );
}

interface Filter {
  readonly stove: string;
  readonly revision: string;
  readonly fuel: string;
}

const noFilter: Filter = { stove: '', revision: '', fuel: '' };

function matches({ stove, revision, fuelLots }: BurnSummary, filter: Filter): boolean {
  return (
    (filter.stove === '' || stove?.id === filter.stove) &&
    (filter.revision === '' || revision?.id === filter.revision) &&
    (filter.fuel === '' || fuelLots.some(({ id }) => id === filter.fuel))
  );
}

/** Of each kind only what burns have; a choice that is in force stays, even when its last burn is gone. */
function Filters({
  all,
  filter,
  onFilter,
}: {
  all: readonly BurnSummary[];
  filter: Filter;
  onFilter: (filter: Filter) => void;
}): VNode {
  const words = translate().burns.list;
  const ofStove = all.filter(({ stove }) => filter.stove === '' || stove?.id === filter.stove);
  const choices: readonly (readonly [keyof Filter, string, readonly (readonly [string, string])[]])[] = [
    ['stove', words.filterStove, namesOf(all, ({ stove }) => (stove ? [[stove.id, stove.name]] : []))],
    [
      'revision',
      words.filterRevision,
      namesOf(ofStove, ({ revision }) => (revision ? [[revision.id, revision.label]] : [])),
    ],
    ['fuel', words.filterFuel, namesOf(all, ({ fuelLots }) => fuelLots.map(({ id, name }) => [id, name] as const))],
  ];
  return (
    <div class="filters">
      {choices
        .filter(([field, , options]) => options.length > 1 || filter[field] !== '')
        .map(([field, label, options]) => (
          <SelectField
            key={field}
            label={label}
            value={filter[field]}
            options={[['', words.all], ...options]}
            onChange={(id) => onFilter({ ...filter, [field]: id, ...(field === 'stove' && { revision: '' }) })}
          />
        ))}
    </div>
  );
}

/** Ticked burns of just two revisions can be compared as such, the older one first. */
function AsRevisions({ burns: chosen }: { burns: readonly BurnSummary[] }): VNode | null {
  const inTime = [...chosen].sort((x, y) => (x.startedUtcMs ?? 0) - (y.startedUtcMs ?? 0));
  const ids = [...new Set(inTime.map(({ revision }) => revision?.id))];
  const [a, b] = ids.map((id) => inTime.filter(({ revision }) => revision?.id === id).map((burn) => burn.id));
  if (ids.length !== 2 || !a || !b) return null;
  return (
    <a href={routeHash({ at: 'compare', of: { show: 'burns', a, b, options: usualOptions } })}>
      {translate().burns.list.asRevisions}
    </a>
  );
}

function BurnLine({
  burn,
  spanS,
  isTicked,
  onTick,
}: {
  burn: BurnSummary;
  spanS: number;
  isTicked: boolean;
  onTick: (on: boolean) => void;
}): VNode {
  const words = translate().burns.list;
  const high = burn.curve.reduce((highest, [, temp]) => Math.max(highest, temp), 0);
  return (
    <li class={`burn-line ${burn.status}`}>
      <label class="tick">
        <input
          type="checkbox"
          checked={isTicked}
          aria-label={words.choose({ title: burn.title })}
          onChange={(event) => onTick(event.currentTarget.checked)}
        />
      </label>
      <a class="burn-link" href={routeHash({ at: burn.status === 'running' ? 'run' : 'burn', id: burn.id })}>
        <span class="burn-title">{burn.title}</span>
        <span class="burn-facts quiet">
          {[
            burn.startedUtcMs !== undefined && day(burn.startedUtcMs),
            burn.durationS !== undefined && duration(burn.durationS),
            burn.revision ? undefined : words.noRevision,
            burn.operator,
            burn.origin !== 'measured' && words.origin[burn.origin],
            burn.setAsideReason,
          ]
            .filter(Boolean)
            .join(' · ')}
        </span>
      </a>
      <span class="burn-revision">{revisionName(burn.stove, burn.revision)}</span>
      <SmallCurve
        curve={burn.curve}
        spanS={spanS}
        label={words.curveOf({ title: burn.title, high: text('temperature', high, 0) })}
      />
      <span class={`burn-status ${burn.status}`}>{words.status[burn.status]}</span>
    </li>
  );
}

function namesOf(
  all: readonly BurnSummary[],
  pick: (burn: BurnSummary) => readonly (readonly [string, string])[],
): (readonly [string, string])[] {
  return [...new Map(all.flatMap(pick))].sort(([, a], [, b]) => a.localeCompare(b));
}
