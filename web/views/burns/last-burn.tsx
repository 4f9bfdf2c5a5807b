/** The last recorded burn in brief: its curve and its main results. */

import type { VNode } from 'preact';
import type { BurnSummary } from '../../../shared/contract/burns.ts';
import type { ResultId, ValueResult } from '../../../shared/contract/results.ts';
import { routeHash } from '../../addresses/router.ts';
import { burnDay } from '../../language/burn-day.ts';
import { translate } from '../../language/catalogue.ts';
import { text } from '../../language/figures.ts';
import { fetchAnalysis } from '../../requests/analyses.ts';
import { call } from '../../requests/service.ts';
import { figure, intervalText, resultName } from '../kit/result-words.ts';
import { useLoad } from '../kit/use-load.ts';
import { COOLING_RESULTS } from './headline.tsx';
import { SmallCurve } from './small-curve.tsx';

const usual: readonly ResultId[] = ['dryWoodPerBatch', 'timeToTarget', 'thermalEfficiency'];

export function LastBurn({ burn }: { burn: BurnSummary }): VNode {
  const words = translate().burns.list;
  const analysis = useLoad(`last ${burn.id}`, () => fetchAnalysis(burn.id)).value.value;
  const detail = useLoad(`last curve ${burn.id}`, () => call('GET /burns/:id', { params: { id: burn.id } }));
  const curve = detail.value.value?.summary.curve ?? burn.curve;
  const wanted = [...new Set<string>([burn.primaryResult, ...usual])];
  const valuesOf = (ids: readonly string[]) =>
    ids
      .map((id) => analysis?.results.find((result) => result.id === id))
      .filter((result): result is ValueResult => result !== undefined && 'value' in result);
  const burnt = valuesOf(wanted);
  const results = burnt.length > 0 ? burnt : valuesOf(COOLING_RESULTS);
  const high = curve.reduce((highest, [, temp]) => Math.max(highest, temp), 0);
  return (
    <a class={`last-burn ${burn.status}`} href={routeHash({ at: 'burn', id: burn.id })}>
      <span class="burn-title">{burn.title}</span>
      <span class="quiet">
        {[burnDay(burn), burn.status === 'setAside' && words.status.setAside].filter(Boolean).join(' · ')}
      </span>
      <SmallCurve
        curve={curve}
        spanS={Math.max(1, burn.durationS ?? curve.at(-1)?.[0] ?? 0)}
        label={words.curveOf({ title: burn.title, high: text('temperature', high, 0) })}
      />
      {results.map((result) => (
        <span class="last-result" key={result.id}>
          <span>{resultName(result.id)}</span> <b>{figure(result.value, result.unit, result.id)}</b>{' '}
          <span class="quiet">{intervalText(result)}</span>
        </span>
      ))}
    </a>
  );
}
