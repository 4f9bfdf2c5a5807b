/**
 * Drift of a stove: one result over all its burns, as deviations from the mean of each revision, with control limits.
 */
import type { Drift } from '../contract/comparison.ts';
import type { ResultId } from '../contract/results.ts';
import { comparisonSentence } from '../language/comparison/comparison.ts';
import type { Language } from '../language/language.ts';
import { individualsChart } from '../statistics/individuals-chart.ts';
import { mean } from '../statistics/moments.ts';
import { type ComparedBurn, resultOf } from './compared-burn.ts';
import { resultScales } from './result-scales.ts';

const FEWEST = 4;

/**
 * Returns an individuals chart in the order of burning. The level of each revision is subtracted, so that an intended
 * change does not look like drift; the only burn of a revision has no level to compare with and is left out.
 * @returns undefined for fewer than four burns that can be charted
 */
export function driftOf(burns: readonly ComparedBurn[], id: ResultId, language: Language = 'en'): Drift | undefined {
  const ratio = resultScales[id]?.scale === 'ratio';
  const usable = burns.flatMap((compared) => {
    const { burn } = compared;
    const result = resultOf(compared, id);
    if (!result || burn.status === 'setAside' || burn.startedUtcMs === undefined) return [];
    if (ratio && !(result.value > 0)) return [];
    const level = ratio ? Math.log(result.value) : result.value;
    return [{ burn, value: result.value, level, at: burn.startedUtcMs, group: burn.revision?.id ?? '' }];
  });
  const inGroup = (group: string) => usable.filter((entry) => entry.group === group);
  const charted = usable.filter(({ group }) => inGroup(group).length > 1).sort((x, y) => x.at - y.at);
  if (charted.length < FEWEST) return undefined;
  const deviations = charted.map(({ level, group }) => level - mean(inGroup(group).map((entry) => entry.level)));
  const chart = individualsChart(deviations);
  const back = (value: number) => (ratio ? Math.expm1(value) : value);
  const idsAt = (indices: readonly number[]) => indices.map((index) => charted[index]!.burn.id);
  const outside = idsAt(chart.outside);
  const runs = idsAt(chart.runs);
  const code = outside.length > 0 ? 'drift/outside' : runs.length > 0 ? 'drift/run' : 'drift/steady';
  return {
    id,
    scale: ratio ? 'ratio' : 'points',
    points: charted.map(({ burn, value }, index) => ({ burnId: burn.id, value, apart: back(deviations[index]!) })),
    low: back(chart.low),
    high: back(chart.high),
    outside,
    runs,
    leftOut: burns.filter(({ burn }) => !charted.some((entry) => entry.burn === burn)).map(({ burn }) => burn.id),
    sentence: comparisonSentence(language, { code, params: { count: outside.length, result: id } }),
  };
}
