/**
 * How far a dial is trusted, as a person says it (it may be off by so much, and is read to the nearest so much) and as the record
 * says it: standard uncertainties. Both are taken as rectangular (JCGM 100:2008, 4.3.7).
 */
import type { HandProbe } from '../../../shared/contract/hand-probes.ts';
import type { Dimension } from '../../../shared/language/display-units.ts';
import { translate } from '../../language/catalogue.ts';
import { unit } from '../../language/figures.ts';
import { type DraftOf, draftOf, figure, needed, quantity } from '../forms/field-spec.ts';

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
export function trustOf(probe: Trust): { off?: number; step?: number } {
  const { standardUncertainty, noiseStandardDeviation } = probe;
  return {
    ...(standardUncertainty !== undefined && { off: standardUncertainty * Math.sqrt(3) }),
    ...(noiseStandardDeviation !== undefined && { step: noiseStandardDeviation * Math.sqrt(12) }),
  };
}

/** How far it may be off, and to what it is read. */
export function trustFields(of: Unit) {
  const words = translate().hand;
  const asked = (label: string, shownUnit: string, hint?: string) => {
    const asks = { label, hint, unit: shownUnit, decimals: 2, positive: true, high: usual[of].most };
    const dimension = dimensions[of];
    return needed(dimension ? quantity(dimension, asks) : figure(asks));
  };
  return {
    off: asked(words.mayBeOff, `± ${trustUnit(of)}`, of === 'Cel' ? words.mayBeOffHelp : undefined),
    step: asked(words.step, trustUnit(of)),
  };
}

/** As the fields show it; of an instrument that is new, what is usual. */
export function trustDraft(of: Unit, probe: Trust | undefined): DraftOf<ReturnType<typeof trustFields>> {
  return draftOf(trustFields(of), probe ? trustOf(probe) : usual[of]);
}

export function uncertaintiesFrom(off: number, step: number): Required<Trust> {
  return { standardUncertainty: off / Math.sqrt(3), noiseStandardDeviation: step / Math.sqrt(12) };
}

/** With their units, to be read. */
export function figuresOfTrust(probe: HandProbe): { off?: string; step?: string } {
  const { off, step } = trustOf(probe);
  const fields = trustFields(probe.unit);
  const write = (value: number) => `${fields.step.write(value)}\u00a0${trustUnit(probe.unit)}`;
  return { ...(off !== undefined && { off: write(off) }), ...(step !== undefined && { step: write(step) }) };
}

function trustUnit(of: Unit): string {
  // A step of a kelvin and of a degree are one, and the dial says degrees.
  const dimension = of === 'Cel' ? 'temperature' : dimensions[of];
  return dimension ? unit(dimension) : of;
}
