/**
 * Checks the coverage of the 95 % intervals of single burns: thousands of simulated burns, measured with drawn errors,
 * the truth known to the joule. A claim holds when the count is inside the exact binomial 99 % band around 95 %.
 *
 * Some claims have a lower limit only: times, powers and batches that depend on the boil of a pot whose probes are not
 * calibrated. There the plateau replaces the calibration, and how far the temperature of boiling water is below the
 * boiling point of its surface is known to 0.17 K; the simulated pots scatter less than that, so more of the intervals
 * hold. The layers of the water are bounded and outweigh the other errors in the heating rate, in the lowest temperature
 * of a hold, and in every result of one probe: more intervals hold there too.
 */
import { binomialBand } from '../../shared/statistics/binomial.ts';
import type { Study } from '../tools/study.ts';
import { type Claimed, type Coverage, coverage } from './honesty/coverage.ts';
import { type SetupKind, setupKinds } from './honesty/varied-burns.ts';

const CONFIDENCE = 0.99;
const ON_THE_PLATEAU = new Set<Claimed>(['timeToBoil', 'timeToTarget', 'meanUsefulPower']);
const IN_LAYERS = new Set<Claimed>([...ON_THE_PLATEAU, 'meanHeatingRate', 'cookingPower', 'holdLowest']);

/** Claims that the counts refute. */
export function honestyClaims(counts: readonly Coverage[]): string[] {
  return counts.flatMap(({ id, bench: setup, trials, held }) => {
    const { low, high } = binomialBand(trials, 0.95, CONFIDENCE);
    const highest = mayHoldMore(setup, id) ? trials : high;
    if (held >= low && held <= highest) return [];
    return [`${setup}: ${held} of ${trials} intervals of ${id} held the truth, outside ${low} to ${highest}`];
  });
}

function mayHoldMore(setup: SetupKind, id: Claimed): boolean {
  if (id === 'meanHeatingRate' || id === 'holdLowest') return true;
  return setup === 'oneProbe' ? IN_LAYERS.has(id) : setup !== 'calibrated' && ON_THE_PLATEAU.has(id);
}

const study: Study = ({ quick }) => {
  const counts = setupKinds.flatMap((setup) => coverage(setup, quick ? 120 : 1200));
  const rows = counts.map(({ id, bench: setup, trials, held, truthBelow, truthAbove, refused, relativeWidth }) => {
    const { low, high } = binomialBand(trials, 0.95, CONFIDENCE);
    return [setup, id, trials, held, `${low} to ${high}`, truthBelow, truthAbove, refused, 100 * relativeWidth];
  });
  const columns = [
    'bench',
    'result',
    'burns',
    'held',
    '99 % band of 95 %',
    'truth below',
    'above',
    'refused',
    'width %',
  ];
  return {
    tables: [{ title: '95 % intervals that held the truth', columns, rows }],
    refuted: honestyClaims(counts),
  };
};

export default study;
