/** Costs of each revision in columns. Amounts are written with sensible digits; wood has its interval. */
import type { VNode } from 'preact';
import type { Cost } from '../../../../shared/contract/comparison.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { number, onScreen, text, unit } from '../../../language/figures.ts';
import { WideTable } from '../../kit/wide-table.tsx';
import { amount } from './amount.ts';
import { CostPicture } from './cost-picture.tsx';

export interface RevisionCost {
  readonly label: string;
  /** Undefined where no burn of the revision made a whole batch. */
  readonly cost: Cost | undefined;
}

interface Row {
  readonly name: string;
  readonly cells: readonly { readonly main: string; readonly aside?: string | undefined }[];
}

export function CostAnswer({ costs }: { costs: readonly RevisionCost[] }): VNode {
  const words = translateCompare().cost;
  const known = costs.flatMap(({ label, cost }) => (cost ? [{ label, cost }] : []));
  if (known.length === 0) return <p>{words.noBatch}</p>;
  const all = known.map(({ cost }) => cost);
  const priced = all.some(({ wood, bottledGas, electricity }) => wood ?? bottledGas ?? electricity);
  return (
    <section aria-live="polite">
      <h2 class="unseen">{words.title}</h2>
      <CostPicture costs={known} />
      {!priced && <p class="quiet">{words.missing}</p>}
      <details>
        <summary>{words.asTable}</summary>
        <WideTable label={words.title}>
          <table class="cost-table">
            <thead>
              <tr>
                <td />
                {known.map(({ label, cost }) => (
                  <th scope="col" key={label}>
                    {translateCompare().revision({ label })}, {translateCompare().count({ count: cost.burns })}
                  </th>
                ))}
              </tr>
            </thead>
            <Group title={words.inKind} rows={inKind(all)} columns={known.length} />
            <Group title={words.batch} rows={money(all, 'perBatch')} columns={known.length} />
            <Group title={words.season} rows={money(all, 'perSeason')} columns={known.length} />
          </table>
        </WideTable>
        <p class="quiet">{words.sameHeat}</p>
      </details>
    </section>
  );
}

function Group({ title, rows, columns }: { title: string; rows: readonly Row[]; columns: number }): VNode | null {
  const filled = rows.filter(({ cells }) => cells.some(({ main }) => main !== ''));
  if (filled.length === 0) return null;
  return (
    <tbody>
      <tr>
        <th scope="rowgroup" class="quiet" colSpan={columns + 1}>
          {title}
        </th>
      </tr>
      {filled.map(({ name, cells }) => (
        <tr key={name}>
          <th scope="row">{name}</th>
          {cells.map(({ main, aside }, index) => (
            <td key={index}>
              {main} {aside && <small class="quiet">{aside}</small>}
            </td>
          ))}
        </tr>
      ))}
    </tbody>
  );
}

function inKind(all: readonly Cost[]): Row[] {
  const words = translateCompare().cost;
  const between = (interval: readonly [number, number] | undefined, write: (value: number) => string) =>
    interval && words.between({ low: write(interval[0]), high: write(interval[1]) });
  const kg = (value: number) => text('mass', value);
  return [
    {
      name: words.woodBatch,
      cells: all.map(({ woodKgPerBatch: { value, interval95 } }) => ({
        main: kg(value),
        aside: between(interval95, kg),
      })),
    },
    {
      name: words.woodHeated({ unit: unit('mass') }),
      cells: all.map(({ woodKgPerKgHeated }) => ({
        main: woodKgPerKgHeated === undefined ? '' : text('specificConsumption', woodKgPerKgHeated),
      })),
    },
    {
      name: words.gasBatch,
      cells: all.map(({ bottledGas }) => ({ main: bottledGas ? kg(bottledGas.kgPerBatch) : '' })),
    },
    {
      name: words.electricityBatch,
      cells: all.map(({ electricity }) => ({
        main: electricity ? `${number(electricity.kWhPerBatch, 1)}\u00a0kWh` : '',
      })),
    },
  ];
}

function money(all: readonly Cost[], per: 'perBatch' | 'perSeason'): Row[] {
  const words = translateCompare().cost;
  const heated = unit('mass');
  const row = (name: string, pick: (cost: Cost) => number | undefined): Row => ({
    name,
    cells: all.map((cost) => {
      const value = pick(cost);
      return { main: value === undefined ? '' : amount(value) };
    }),
  });
  return [
    {
      name: words.wood,
      cells: all.map(({ wood }) => {
        const found = wood?.[per];
        return {
          main: found ? amount(found.value) : '',
          aside:
            found?.interval95 && words.between({ low: amount(found.interval95[0]), high: amount(found.interval95[1]) }),
        };
      }),
    },
    row(words.gas, ({ bottledGas }) => bottledGas?.[per]),
    row(words.electricity, ({ electricity }) => electricity?.[per]),
    ...(per === 'perBatch'
      ? [
          row(words.heatedCost({ unit: heated }), ({ wood }) =>
            wood?.perKgHeated === undefined ? undefined : wood.perKgHeated / onScreen('mass', 1),
          ),
        ]
      : []),
  ];
}
