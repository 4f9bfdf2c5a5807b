/**
 * Shows whether the performance of a stove stays constant: one result over all its burns, against the mean of each
 * revision, with limits.
 */

import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { Drift } from '../../../../shared/contract/comparison.ts';
import { routeHash } from '../../../addresses/router.ts';
import { burnDay } from '../../../language/burn-day.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { language } from '../../../preferences/preferences.ts';
import { fetchLevel } from '../../../requests/comparisons.ts';
import { SelectField } from '../../forms/field.tsx';
import { Fetching } from '../../kit/fetching.tsx';
import { figure, resultName } from '../../kit/result-words.ts';
import { useLoad } from '../../kit/use-load.ts';
import { WideTable } from '../../kit/wide-table.tsx';
import { type CountedBurns, fetchCountedBurns } from '../parts/counted-burns.ts';
import { NotCountedList } from '../parts/not-counted-list.tsx';
import { type PrimaryId, primaryIds } from '../parts/primary-ids.ts';
import { type StoveBurns, StovePick, type StoveScreen, stovesOf } from '../parts/stove-pick.tsx';
import { WithBurns } from '../parts/with-burns.tsx';
import { deviationText, LevelPlot } from './level-plot.tsx';

const more = ['sensibleEfficiency', 'evaporatedWater', 'stackLoss'] as const;
/** Units of results that are not in kg, by the service's name of the result. */
const unitOf: Readonly<Record<string, string>> = {
  timeToTarget: 's',
  thermalEfficiency: '1',
  sensibleEfficiency: '1',
  stackLoss: '1',
  specificFuelConsumption: 'kg/kg',
  meanUsefulPower: 'W',
};

export function LevelPage({ stoveId }: { stoveId: string | undefined }): VNode {
  return (
    <WithBurns
      show={(all, inventory) => {
        const stoves = stovesOf(all);
        const stove = stoves.find(({ id }) => id === stoveId) ?? stoves[0];
        return stove ? <Level key={stove.id} stoves={stoves} stove={stove} inventory={inventory} /> : <NoBurns />;
      }}
    />
  );
}

function NoBurns(): VNode {
  return (
    <div class="page narrow">
      <h1>{translateCompare().level.title}</h1>
      <p>{translateCompare().noStove}</p>
    </div>
  );
}

function Level({ stoves, stove, inventory }: StoveScreen): VNode {
  const words = translateCompare().level;
  const result = useSignal<PrimaryId | (typeof more)[number]>('dryWoodPerBatch');
  const states = stove.burns.map(({ id, status }) => `${id} ${status}`).join();
  const loaded = useLoad(`${result.value} ${states} ${language.value}`, async () => {
    const counted = await fetchCountedBurns(stove.burns, inventory.revisions);
    return { counted, level: await fetchLevel(counted.ids, result.value) };
  });
  const answer = loaded.value.value;
  return (
    <div class="page level-page">
      <header class="page-head">
        <h1>{words.heading({ stove: stove.name })}</h1>
        <p class="quiet facts">{words.intro}</p>
      </header>
      <div class="filters">
        <StovePick show="level" stoves={stoves} chosen={stove} />
        <SelectField
          label={words.result}
          value={result.value}
          options={[...primaryIds(), ...more].map((id) => [id, resultName(id)] as const)}
          onChange={(next) => {
            result.value = next;
          }}
        />
      </div>
      {!answer ? (
        <Fetching of={loaded} />
      ) : answer.level ? (
        <LevelAnswer level={answer.level} counted={answer.counted} stove={stove} />
      ) : (
        <p>{words.tooFew}</p>
      )}
    </div>
  );
}

function LevelAnswer({ level, counted, stove }: { level: Drift; counted: CountedBurns; stove: StoveBurns }): VNode {
  const words = translateCompare().level;
  const burnOf = (id: string) => stove.burns.find((burn) => burn.id === id);
  const unit = unitOf[level.id] ?? 'kg';
  const titles = (ids: readonly string[]) =>
    ids.map((id) => {
      const burn = burnOf(id);
      return [burn?.title, burn && burnDay(burn)].filter(Boolean).join(', ');
    });
  return (
    <>
      <p class="lead" aria-live="polite">
        {level.sentence}
      </p>
      <LevelPlot level={level} burns={stove.burns} />
      {level.leftOut.length > 0 && (
        <p class="quiet">
          {words.leftOut} {titles(level.leftOut).join(' · ')}.
        </p>
      )}
      <NotCountedList burns={stove.burns} counted={counted} />
      <details>
        <summary>{words.asTable}</summary>
        <WideTable label={words.asTable}>
          <table>
            <thead>
              <tr>
                <th scope="col">{words.burn}</th>
                <th scope="col">{words.day}</th>
                <th scope="col">{words.revision}</th>
                <th scope="col">{resultName(level.id)}</th>
                <th scope="col">{words.deviation}</th>
                <th scope="col">{words.remark}</th>
              </tr>
            </thead>
            <tbody>
              {level.points.map(({ burnId, value, apart }) => {
                const burn = burnOf(burnId);
                return (
                  <tr key={burnId}>
                    <th scope="row">
                      <a href={routeHash({ at: 'burn', id: burnId })}>{burn?.title ?? burnId}</a>
                    </th>
                    <td>{burn && burnDay(burn)}</td>
                    <td>{burn?.revision?.label}</td>
                    <td>{figure(value, unit, level.id)}</td>
                    <td>{deviationText(level, apart)}</td>
                    <td>
                      {level.outside.includes(burnId) ? words.outside : level.runs.includes(burnId) ? words.run : ''}
                    </td>
                  </tr>
                );
              })}
            </tbody>
          </table>
        </WideTable>
      </details>
    </>
  );
}
