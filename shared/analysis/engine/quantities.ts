/**
 * The quantities results are made of, named once for all method sets. Energies in MJ, masses in kg, times in s, temperatures in
 * °C and K. NaN until filled; whether one may be read is what the model says. A class, so that every draw writes into an object
 * of one shape.
 */
export class Quantities {
  /** Error of the water temperature as read: offset, K, and relative gain. True = read − offset − gain × read. */
  waterOffsetK = Number.NaN;
  waterGain = Number.NaN;
  boilingTempC = Number.NaN;
  airTempC = Number.NaN;
  /** Water at lit (pot on, where that came later), at fire out, and at the moment of the target. */
  startTempC = Number.NaN;
  endTempC = Number.NaN;
  targetTempC = Number.NaN;
  litToTargetS = Number.NaN;
  litToBoilS = Number.NaN;
  wholeS = Number.NaN;
  heatingRateKPerMin = Number.NaN;
  waterStartKg = Number.NaN;
  loadStartKg = Number.NaN;
  evaporatedKg = Number.NaN;
  waterLeftKg = Number.NaN;
  loadToTargetMJ = Number.NaN;
  loadMJ = Number.NaN;
  vapourMJ = Number.NaN;
  vesselMJ = Number.NaN;
  /** Burnt, as weighed, of all lots. */
  fuelKg = Number.NaN;
  fuelMJ = Number.NaN;
  /** Char raked out less old char that lay in the firebox. */
  charKg = Number.NaN;
  charMJ = Number.NaN;
  charMJPerKg = Number.NaN;
  /** Net heating value, oven-dry, of the main lot. */
  dryMJPerKg = Number.NaN;
  /** Net heating value, oven-dry, and moisture of all that burnt, by mass. */
  meanDryMJPerKg = Number.NaN;
  moistureWet = Number.NaN;
  fuelToTargetKg = Number.NaN;
  fuelInHoldKg = Number.NaN;
  holdWindowS = Number.NaN;
  /** 1 when the target was reached and the hold kept. */
  batches = Number.NaN;
  holdCountedS = Number.NaN;
  holdBelowS = Number.NaN;
  holdLowestC = Number.NaN;
  longestUnattendedS = Number.NaN;
  typicalUnattendedS = Number.NaN;
  recoveryS = Number.NaN;
  stackLoss = Number.NaN;
  bodyMJ = Number.NaN;
}
export type QuantityName = keyof Quantities;

/** Unit (UCUM) of each quantity. */
export const quantityUnits: Readonly<Record<QuantityName, string>> = {
  waterOffsetK: 'K',
  waterGain: '1',
  boilingTempC: 'Cel',
  airTempC: 'Cel',
  startTempC: 'Cel',
  endTempC: 'Cel',
  targetTempC: 'Cel',
  litToTargetS: 's',
  litToBoilS: 's',
  wholeS: 's',
  heatingRateKPerMin: 'K/min',
  waterStartKg: 'kg',
  loadStartKg: 'kg',
  evaporatedKg: 'kg',
  waterLeftKg: 'kg',
  loadToTargetMJ: 'MJ',
  loadMJ: 'MJ',
  vapourMJ: 'MJ',
  vesselMJ: 'MJ',
  fuelKg: 'kg',
  fuelMJ: 'MJ',
  charKg: 'kg',
  charMJ: 'MJ',
  charMJPerKg: 'MJ/kg',
  dryMJPerKg: 'MJ/kg',
  meanDryMJPerKg: 'MJ/kg',
  moistureWet: '1',
  fuelToTargetKg: 'kg',
  fuelInHoldKg: 'kg',
  holdWindowS: 's',
  batches: '1',
  holdCountedS: 's',
  holdBelowS: 's',
  holdLowestC: 'Cel',
  longestUnattendedS: 's',
  typicalUnattendedS: 's',
  recoveryS: 's',
  stackLoss: '1',
  bodyMJ: 'MJ',
};
