/** The heat balance of the fuel as one picture whose parts add up, each with its interval. */
import type { VNode } from 'preact';
import type { Analysis, HeatPart } from '../../../shared/contract/results.ts';
import { translate } from '../../language/catalogue.ts';
import { number, onScreen, percent, unit } from '../../language/figures.ts';
import { type HeatBand, heatLayout, roundedToSum } from './heat-layout.ts';

export function HeatPicture({ analysis }: { analysis: Analysis }): VNode | null {
  const [fuel, ...parts] = analysis.heat ?? [];
  if (!fuel) return null;
  const words = translate().burns.heat;
  const layout = heatLayout(fuel.MJ, parts);
  const unitShown = unit('energy');
  const decimals = unitShown === 'MJ' ? 1 : 0;
  const figures = roundedToSum(
    parts.map(({ MJ }) => onScreen('energy', MJ)),
    onScreen('energy', fuel.MJ),
    decimals,
  );
  const shares = roundedToSum(
    parts.map(({ MJ }) => (100 * MJ) / fuel.MJ),
    100,
    1,
  );
  const interval = ({ MJ, interval95 }: HeatPart) => {
    const digits = MJ < 1 ? decimals + 1 : decimals;
    return (
      interval95 &&
      words.interval({
        low: number(onScreen('energy', interval95[0]), digits),
        high: `${number(onScreen('energy', interval95[1]), digits)}\u00a0${unitShown}`,
      })
    );
  };
  return (
    <section class="heat" aria-labelledby="heat-title">
      <h2 id="heat-title">{words.title}</h2>
      <p>
        {words.fuel} <b>{`${number(onScreen('energy', fuel.MJ), decimals)}\u00a0${unitShown}`}</b>{' '}
        <span class="quiet">{interval(fuel)}</span>
      </p>
      {!layout && <p class="problem">{words.more}</p>}
      <div class="heat-flow">
        {layout && (
          <svg
            viewBox={`0 0 100 ${layout.height}`}
            height={layout.height}
            preserveAspectRatio="none"
            aria-hidden="true"
          >
            {layout.bands.map((band) => (
              <path key={band.of} class={`heat-band ${band.of}`} d={bandPath(band)} />
            ))}
          </svg>
        )}
        <dl>
          {parts.map((part, index) => (
            <div
              key={part.of}
              class={part.of}
              style={layout && { blockSize: `${layout.bands[index]?.slot.height ?? 0}px` }}
            >
              <dt>{words.parts[part.of]}</dt>
              <dd>
                <b>{`${number(figures[index] ?? 0, decimals)}\u00a0${unitShown}`}</b>{' '}
                {percent((shares[index] ?? 0) / 100)} <span class="quiet">{interval(part)}</span>
              </dd>
            </div>
          ))}
        </dl>
      </div>
      <p class="quiet">{words.help}</p>
    </section>
  );
}

/** From the column of fuel on the left edge to the part on the right. */
function bandPath({ from, to }: HeatBand): string {
  const [fromEnd, toEnd] = [from.top + from.height, to.top + to.height];
  return `M0 ${from.top}H6C50 ${from.top} 50 ${to.top} 100 ${to.top}V${toEnd}C50 ${toEnd} 50 ${fromEnd} 6 ${fromEnd}H0Z`;
}
