/**
 * Differences between the truth and the record: errors of probes, scales, fuel data, pressure and marks, drawn so that
 * each is shared as in reality (one lot of wood has one moisture error in every burn that uses it).
 */
import { createRandom } from '../../shared/statistics/random.ts';
import type { ProbeErrors } from './probes.ts';
import type { Site } from './sites.ts';

/** Standard uncertainties to draw from; the record states the same. */
export interface ErrorBudget {
  probeOffsetK: number;
  probeGain: number;
  coldJunctionK: number;
  scaleGain: number;
  scaleZeroKg: number;
  scaleReadingKg: number;
  /** Wet basis, as a fraction. */
  moisture: number;
  netDryMJPerKg: number;
  charMJPerKg: number;
  stationPressurePa: number;
  markS: number;
  /** Typical mass of char that burns on between raking out and weighing: one-sided, half-normal. */
  charBurntOnKg: number;
}

/** Names of the things that share an error: the same name and study give the same error. */
export interface SharedThings {
  /** Probes and their board; use the burn's name where probes are moved between burns. */
  equipment: string;
  woodScale: string;
  waterScale: string;
  woodLot: string;
  kindlingLot: string;
  place: string;
  burn: string;
}

export interface MeasurementErrors {
  probe(site: Site): ProbeErrors;
  coldJunctionK: number;
  /** The reading of a scale for a true mass. `what` names the weighing: each has its own reading error. */
  weighed(scale: 'wood' | 'water', massKg: number, what: string): number;
  moisture: { wood: number; kindling: number };
  netDryMJPerKg: { wood: number; kindling: number };
  charMJPerKg: number;
  stationPressurePa: number;
  markS(what: string): number;
  charBurntOnKg: number;
  /** What the errors were drawn from; absent when there are none. */
  budget?: ErrorBudget;
}

/** Probes, scales and other values without any error. */
export const exactMeasurement: MeasurementErrors = {
  probe: () => ({ offsetK: 0, gain: 0 }),
  coldJunctionK: 0,
  weighed: (_scale, massKg) => massKg,
  moisture: { wood: 0, kindling: 0 },
  netDryMJPerKg: { wood: 0, kindling: 0 },
  charMJPerKg: 0,
  stationPressurePa: 0,
  markS: () => 0,
  charBurntOnKg: 0,
};

/** A careful bench with uncalibrated class 2 probes and a kitchen scale ("common practice, no source"). */
export const usualErrorBudget: ErrorBudget = {
  probeOffsetK: 1.1,
  probeGain: 0.002,
  coldJunctionK: 0.6,
  scaleGain: 0.001,
  scaleZeroKg: 0.003,
  scaleReadingKg: 0.005,
  moisture: 0.015,
  netDryMJPerKg: 0.3,
  charMJPerKg: 1,
  stationPressurePa: 150,
  markS: 8,
  charBurntOnKg: 0.015,
};

/** Draws one burn's errors. Burns of one study (`studySeed`) that name the same thing get the same error for it. */
export function drawErrors(budget: ErrorBudget, shared: SharedThings, studySeed: number | string): MeasurementErrors {
  const normal = (thing: string, error: string) => createRandom(`${studySeed}/${thing}/${error}`).normal();
  const scaleName = { wood: shared.woodScale, water: shared.waterScale };
  return {
    probe: (site) => ({
      offsetK: budget.probeOffsetK * normal(`rig ${shared.equipment}`, `${site} offset`),
      gain: budget.probeGain * normal(`rig ${shared.equipment}`, `${site} gain`),
    }),
    coldJunctionK: budget.coldJunctionK * normal(`rig ${shared.equipment}`, 'cold junction'),
    weighed(scale, massKg, what) {
      const name = `scale ${scaleName[scale]}`;
      const shown =
        massKg * (1 + budget.scaleGain * normal(name, 'gain')) +
        budget.scaleZeroKg * normal(name, `zero in ${shared.burn}`) +
        budget.scaleReadingKg * normal(`burn ${shared.burn}`, `weighing ${scale} ${what}`);
      return Math.max(0, shown);
    },
    moisture: {
      wood: budget.moisture * normal(`lot ${shared.woodLot}`, 'moisture'),
      kindling: budget.moisture * normal(`lot ${shared.kindlingLot}`, 'moisture'),
    },
    netDryMJPerKg: {
      wood: budget.netDryMJPerKg * normal(`lot ${shared.woodLot}`, 'heating value'),
      kindling: budget.netDryMJPerKg * normal(`lot ${shared.kindlingLot}`, 'heating value'),
    },
    charMJPerKg: budget.charMJPerKg * normal(`lot ${shared.woodLot}`, 'char heating value'),
    stationPressurePa: budget.stationPressurePa * normal(`place ${shared.place}`, 'pressure'),
    markS: (what) => budget.markS * normal(`burn ${shared.burn}`, `mark ${what}`),
    charBurntOnKg: budget.charBurntOnKg * Math.abs(normal(`burn ${shared.burn}`, 'char burnt on')),
    budget,
  };
}
