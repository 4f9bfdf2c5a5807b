/** Results of several burns in columns; for two, also their difference. */
import type { VNode } from 'preact';
import type { Analysis, ResultId, ValueResult } from '../../../../shared/contract/results.ts';
import { translate, translateCompare, translateResult } from '../../../language/catalogue.ts';
import { number, percent } from '../../../language/figures.ts';
import { figure, intervalText, resultName } from '../../kit/result-words.ts';
import { WideTable } from '../../kit/wide-table.tsx';
import type { OverlayBurn } from './overlay-burns.ts';

export function ResultsTable({
  burns,
  analyses,
}: {
  burns: readonly OverlayBurn[];
  analyses: readonly Analysis[];
}): VNode {
  const primary = burns[0]?.detail.burn.primaryResult;
  const ids = [...new Set(analyses.flatMap(({ results }) => results.map(({ id }) => id)))];
  const known = ids.filter((id) => analyses.some(({ results }) => results.some((r) => r.id === id && 'value' in r)));
  const ordered = [...known.filter((id) => id === primary), ...known.filter((id) => id !== primary)];
  const two = burns.length === 2;
  return (
    <section class="beside">
      <h2>{translate().burns.burn.results}</h2>
      <WideTable label={translate().burns.burn.results}>
        <table>
          <thead>
            <tr>
              <th scope="col">{translate().burns.results.value}</th>
              {burns.map(({ detail, name, number }) => (
                <th scope="col" key={detail.burn.id}>
                  {number}. {name}
                </th>
              ))}
              {two && <th scope="col">{translateCompare().overlay.difference}</th>}
            </tr>
          </thead>
          <tbody>
            {ordered.map((id) => (
              <tr key={id} class={id === primary ? 'primary' : ''}>
                <th scope="row">{resultName(id)}</th>
                {burns.map((burn) => (
                  <ResultCell key={burn.detail.burn.id} analysis={analyses[burn.place]} id={id} />
                ))}
                {two && <td>{differenceText(resultOf(analyses[0], id), resultOf(analyses[1], id))}</td>}
              </tr>
            ))}
          </tbody>
        </table>
      </WideTable>
    </section>
  );
}

function ResultCell({ analysis, id }: { analysis: Analysis | undefined; id: ResultId }): VNode {
  const result = analysis?.results.find((entry) => entry.id === id);
  if (!result) return <td />;
  if ('missing' in result)
    return (
      <td class="quiet" title={translateResult().missing(result.missing)}>
        {translate().burns.results.missing}
      </td>
    );
  return (
    <td>
      {figure(result.value, result.unit, id)} <small class="quiet">{intervalText(result)}</small>
    </td>
  );
}

function resultOf(analysis: Analysis | undefined, id: ResultId): ValueResult | undefined {
  const result = analysis?.results.find((entry) => entry.id === id);
  return result && 'value' in result ? result : undefined;
}

/** Second compared with first: percent for quantities, points for shares, the difference for temperatures. */
function differenceText(first: ValueResult | undefined, second: ValueResult | undefined): string {
  if (!first || !second) return '';
  const difference = second.value - first.value;
  const signed = (written: string) => (difference > 0 ? `+${written}` : written);
  if (first.unit === 'Cel') return signed(figure(difference, 'K'));
  if (first.unit === '1' && first.id !== 'turnDownRatio') return signed(number(difference * 100, 1));
  if (first.value === 0) return '';
  return signed(percent(difference / first.value, 0));
}
