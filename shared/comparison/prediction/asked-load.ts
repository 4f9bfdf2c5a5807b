/** Fills in the fields that a requested load leaves out with values from the burns. */
import type { Load } from '../../contract/prediction.ts';
import { boilingPointC, standardPressureAtGeometricPa } from '../../physics/atmosphere.ts';
import { mean } from '../../statistics/moments.ts';
import { median } from '../../statistics/quantile.ts';
import type { Goods } from './heated-mass.ts';
import type { ObservedBurn } from './observed-burn.ts';

/** Boiling counts as reached half a kelvin below the boiling point. */
const BOIL_REACHED_BELOW_K = 0.5;
/** Default temperature of the air, °C, where no burn has one. */
export const USUAL_AIR_C = 15;

export interface AskedLoad {
  waterKg: number;
  goods: Goods[];
  vessel:
    | { massKg?: number | undefined; specificHeatJPerKgK?: number | undefined; innerDiameterM?: number | undefined }
    | undefined;
  startTempC: number;
  targetC: number;
  airTempC: number;
  lidOn: boolean;
  moistureWet: number | undefined;
}

/** Fills in a load from at least one burn. */
export function askedOf(load: Load, burns: readonly ObservedBurn[]): AskedLoad {
  const known = (pick: (burn: ObservedBurn) => number | undefined) => {
    const values = burns.flatMap((burn) => pick(burn) ?? []);
    return values.length > 0 ? mean(values) : undefined;
  };
  const covered = burns.filter((burn) => burn.lidOnAt(burn.targetS / 2)).length;
  return {
    waterKg: load.waterKg,
    goods: load.contents ?? [],
    vessel: load.vessel ?? burns[0]!.vessel,
    startTempC: load.startTempC ?? known(({ startTempC }) => startTempC)!,
    targetC: targetOf(load, burns),
    airTempC: load.airTempC ?? known(({ airTempC }) => airTempC) ?? USUAL_AIR_C,
    lidOn: load.lid === undefined ? 2 * covered >= burns.length : load.lid === 'on',
    moistureWet: load.moistureWet,
  };
}

/** The temperature at which the target counts as reached. Where none is requested, the commonest of the burns. */
function targetOf({ target, stationPressurePa, altitudeM }: Load, burns: readonly ObservedBurn[]): number {
  if (target?.kind === 'temperature') return target.tempC;
  const pressurePa =
    stationPressurePa ?? (altitudeM === undefined ? undefined : standardPressureAtGeometricPa(altitudeM));
  const boils =
    target?.kind === 'boil' || 2 * burns.filter((burn) => burn.target.kind === 'boil').length >= burns.length;
  if (boils && pressurePa !== undefined) return boilingPointC(pressurePa) - BOIL_REACHED_BELOW_K;
  if (boils) {
    const seen = burns.filter((burn) => burn.target.kind === 'boil').map(({ targetC }) => targetC);
    const boiling = burns.flatMap((burn) => burn.boilingPointC ?? []).map((tempC) => tempC - BOIL_REACHED_BELOW_K);
    if (seen.length > 0 || boiling.length > 0) return mean(seen.length > 0 ? seen : boiling);
  }
  return median(burns.map(({ targetC }) => targetC));
}
