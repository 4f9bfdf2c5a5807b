/**
 * How far a dial is trusted, as a person says it (it may be off by so much, and is read to the nearest so much) and as the record
 * says it: standard uncertainties. Both are taken as rectangular (JCGM 100:2008, 4.3.7).
 */
import type { HandProbe } from '../../../shared/contract/hand-probes.ts';
import type { Dimension } from '../../../shared/language/shown.ts';
import { type Entry, readNumber, readQuantity, typed, typedNumber, unit } from '../../state/figures.ts';

type Unit = HandProbe['unit'];
type Trust = Pick<HandProbe, 'standardUncertainty' | 'noiseStandardDeviation'>;

/** Differences: of two temperatures, not a temperature. */
const dimensions: Readonly<Record<Unit, Dimension | undefined>> = {
  Cel: 'temperatureDifference',
  kg: 'mass',
  Pa: 'pressure',
  '%': undefined,
};
/** What a plain instrument does, in the unit of the channel ("common practice, no source"). */
const usual: Readonly<Record<Unit, { off: number; step: number; most: number }>> = {
  Cel: { off: 2, step: 1, most: 50 },
  kg: { off: 0.05, step: 0.01, most: 20 },
  Pa: { off: 200, step: 100, most: 20_000 },
  '%': { off: 0.5, step: 0.1, most: 20 },
};

/** Half-width of the error and the step of the dial, in the unit of the channel. */
function trustOf(probe: Trust): { off?: number; step?: number } {
  const { standardUncertainty, noiseStandardDeviation } = probe;
  return {
    ...(standardUncertainty !== undefined && { off: standardUncertainty * Math.sqrt(3) }),
    ...(noiseStandardDeviation !== undefined && { step: noiseStandardDeviation * Math.sqrt(12) }),
  };
}

/** As it stands in the fields of the form. */
export function typedTrust(of: Unit, probe: Trust | undefined): { off: string; step: string } {
  const { off, step } = probe ? trustOf(probe) : usual[of];
  return { off: typedFigure(of, off), step: typedFigure(of, step) };
}

export function readTrust(of: Unit, typedText: string): Entry<number> {
  const dimension = dimensions[of];
  return dimension
    ? readQuantity(dimension, typedText, { positive: true, high: usual[of].most })
    : readNumber(typedText);
}

export function uncertaintiesFrom(off: number, step: number): Required<Trust> {
  return { standardUncertainty: off / Math.sqrt(3), noiseStandardDeviation: step / Math.sqrt(12) };
}

/** With their units, to be read. */
export function figuresOfTrust(probe: HandProbe): { off?: string; step?: string } {
  const { off, step } = trustOf(probe);
  const write = (value: number) => `${typedFigure(probe.unit, value)}\u00a0${trustUnit(probe.unit)}`;
  return { ...(off !== undefined && { off: write(off) }), ...(step !== undefined && { step: write(step) }) };
}

export function trustUnit(of: Unit): string {
  // A step of a kelvin and of a degree are one, and the dial says degrees.
  const dimension = of === 'Cel' ? 'temperature' : dimensions[of];
  return dimension ? unit(dimension) : of;
}

function typedFigure(of: Unit, value: number | undefined): string {
  if (value === undefined) return '';
  const dimension = dimensions[of];
  return dimension ? typed(dimension, value, 2) : typedNumber(value, 2);
}
