/**
 * The uncertainty of a dial, converted between the form (largest error, and resolution of reading) and the record
 * (standard uncertainties). Both are taken as rectangular (JCGM 100:2008, 4.3.7).
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
/** Typical values of a plain instrument, in the unit of the channel ("common practice, no source"). */
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

/** The fields for the largest error and the resolution. */
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

/** As entries of the fields; for a new instrument the typical values. */
export function trustDraft(of: Unit, probe: Trust | undefined): DraftOf<ReturnType<typeof trustFields>> {
  return draftOf(trustFields(of), probe ? trustOf(probe) : usual[of]);
}

export function uncertaintiesFrom(off: number, step: number): Required<Trust> {
  return { standardUncertainty: off / Math.sqrt(3), noiseStandardDeviation: step / Math.sqrt(12) };
}

/** With their units, as text. */
export function figuresOfTrust(probe: HandProbe): { off?: string; step?: string } {
  const { off, step } = trustOf(probe);
  const fields = trustFields(probe.unit);
  const write = (value: number) => `${fields.step.write(value)}\u00a0${trustUnit(probe.unit)}`;
  return { ...(off !== undefined && { off: write(off) }), ...(step !== undefined && { step: write(step) }) };
}

function trustUnit(of: Unit): string {
  // Steps of a kelvin and of a degree are equal, and the dial shows degrees.
  const dimension = of === 'Cel' ? 'temperature' : dimensions[of];
  return dimension ? unit(dimension) : of;
}
