/**
 * The cost of the wood as one sentence, next to bars, on one scale, of what the same heat would cost from bottled gas
 * or electricity.
 */
import type { VNode } from 'preact';
import type { Cost } from '../../../../shared/contract/comparison.ts';
import { shareOf } from '../../../../shared/plot/scale.ts';
import { translateCompare } from '../../../language/catalogue.ts';
import { number, onScreen, text, unit } from '../../../language/figures.ts';
import { prices } from '../../../preferences/prices.ts';
import { MarkedUpText } from '../../kit/marked-up-text.tsx';
import { PlotAxis } from '../parts/plot-axis.tsx';
import { roundAmount } from './amount.ts';
import { readPrices } from './read-prices.ts';

export interface KnownCost {
  readonly label: string;
  readonly cost: Cost;
}

/** Heats this close look the same, and need no explanation. */
const noticedShare = 0.01;
const barPx = 28;

interface Bar {
  readonly name: string;
  readonly value: number;
  readonly interval?: readonly [number, number] | undefined;
  readonly isWood: boolean;
}

export function CostPicture({ costs }: { costs: readonly KnownCost[] }): VNode {
  const words = translateCompare().cost;
  const batches = batchesOf();
  const isPriced = costs.every(({ cost }) => cost.wood !== undefined);
  const bars = barsOf(costs, batches, isPriced);
  const most = bars.reduce((so, { value, interval }) => Math.max(so, value, interval?.[1] ?? 0), 0) * 1.02;
  const at = shareOf(0, most);
  const write = isPriced ? roundAmount : (kg: number) => text('mass', kg);
  const what = isPriced
    ? batches === undefined
      ? words.perBatch
      : words.perSeason
    : batches === undefined
      ? words.woodPerBatch
      : words.woodPerSeason;
  const axis = isPriced
    ? { onAxis: (value: number) => value, unit: prices.value.currency.trim() }
    : { onAxis: (value: number) => onScreen('mass', value), unit: unit('mass') };
  return (
    <>
      <p class="verdict-sentence">
        <MarkedUpText text={sentence(costs, batches, isPriced)} />
      </p>
      <figure class="cost-plot">
        <PlotAxis low={0} high={most} axis={axis} />
        {bars.map(({ name, value, interval, isWood }) => (
          <div class="plot-row" key={name}>
            <span class="plot-label">
              {name} <b>{write(value)}</b>
            </span>
            <svg height={barPx} aria-hidden="true">
              <rect class={isWood ? 'cost-bar wood' : 'cost-bar'} x="0" width={`${at(value)}%`} y="6" height="16" />
              {interval && (
                <rect
                  class="cost-interval"
                  x={`${at(interval[0])}%`}
                  width={`${at(interval[1]) - at(interval[0])}%`}
                  y="11"
                  height="6"
                />
              )}
            </svg>
          </div>
        ))}
        <figcaption class="quiet">{words.bars({ what })}</figcaption>
      </figure>
      <SteamNote costs={costs} />
    </>
  );
}

function batchesOf(): number | undefined {
  const read = readPrices(prices.value);
  return read.ok ? read.prices.batchesPerSeason : undefined;
}

/** The wood of every revision, with its price where there is one; then other sources for the heat of the newest. */
function barsOf(costs: readonly KnownCost[], batches = 1, isPriced: boolean): Bar[] {
  const words = translateCompare().cost;
  const name = ({ label }: KnownCost) => ({ revision: translateCompare().revision({ label }) });
  const wood = costs.map((each): Bar => {
    const { value, interval95 } = each.cost.wood?.perBatch ?? each.cost.woodKgPerBatch;
    return {
      name: words.withWood(name(each)),
      value: value * batches,
      interval: interval95 && [interval95[0] * batches, interval95[1] * batches],
      isWood: true,
    };
  });
  const newest = costs.at(-1);
  if (!isPriced || !newest) return wood;
  const other = (title: string, perBatch: number | undefined): Bar[] =>
    perBatch === undefined ? [] : [{ name: title, value: perBatch * batches, isWood: false }];
  return [
    ...wood,
    ...other(words.withGas(name(newest)), newest.cost.bottledGas?.perBatch),
    ...other(words.withElectricity(name(newest)), newest.cost.electricity?.perBatch),
  ];
}

function sentence(costs: readonly KnownCost[], batches: number | undefined, isPriced: boolean): string {
  const words = translateCompare().cost;
  const write = isPriced ? roundAmount : (kg: number) => text('mass', kg);
  const factor = batches ?? 1;
  const figuresOf = ({ label, cost }: KnownCost) => {
    const { value, interval95 } = (isPriced ? cost.wood?.perBatch : undefined) ?? cost.woodKgPerBatch;
    return {
      amount: write(value * factor),
      revision: translateCompare().revision({ label }),
      between: interval95
        ? words.between({ low: write(interval95[0] * factor), high: write(interval95[1] * factor) })
        : '',
    };
  };
  const [newest, ...earlier] = [...costs].reverse();
  if (!newest) return '';
  const first = (isPriced ? words.woodCosts : words.woodTakes)({
    batches: batches === undefined ? '' : number(batches, 0),
    ...figuresOf(newest),
  });
  const others = earlier.slice(0, 1).map((each) => `; ${words.before(figuresOf(each))}`);
  const { bottledGas, electricity } = newest.cost;
  const parts = [
    ...(bottledGas ? [words.fromGas({ amount: roundAmount(bottledGas.perBatch * factor) })] : []),
    ...(electricity ? [words.fromElectricity({ amount: roundAmount(electricity.perBatch * factor) })] : []),
  ];
  const [gas = '', current] = parts;
  const heat =
    parts.length > 0
      ? words.otherHeat({
          revision: translateCompare().revision({ label: newest.label }),
          parts: current === undefined ? gas : words.and({ first: gas, last: current }),
        })
      : '';
  return [`${first}${others.join('')}.`, heat].filter(Boolean).join(' ');
}

/** The gas is computed for the heat of the burn: more steam needs more gas. */
function SteamNote({ costs }: { costs: readonly KnownCost[] }): VNode | null {
  const words = translateCompare();
  const heats = costs.flatMap(({ label, cost: { usefulMJPerBatch, bottledGas, electricity } }) =>
    usefulMJPerBatch !== undefined && (bottledGas ?? electricity)
      ? [{ revision: words.revision({ label }), heatMJ: usefulMJPerBatch }]
      : [],
  );
  const sorted = heats.sort((a, b) => a.heatMJ - b.heatMJ);
  const [least, most] = [sorted[0], sorted.at(-1)];
  if (!least || !most || most.heatMJ < least.heatMJ * (1 + noticedShare)) return null;
  const heat = (MJ: number) => `${number(MJ, 1)}\u00a0MJ`;
  return (
    <p class="quiet">
      {words.cost.steam({
        more: most.revision,
        moreHeat: heat(most.heatMJ),
        less: least.revision,
        lessHeat: heat(least.heatMJ),
      })}
    </p>
  );
}
