/**
 * The description of a simulated burn. Every number describes an invented stove, vessel or person; the defaults are
 * calibrated to plausibility only ("common practice, no source").
 */
import type { ProbeFault, SimulatedChannel } from './probes.ts';

export interface Scenario {
  place: SimulatedPlace;
  stove: SimulatedStove;
  vessel: SimulatedVessel;
  load: SimulatedLoad;
  wood: SimulatedWood;
  kindling: SimulatedWood;
  /** Net heating value of the char both lots leave. */
  charMJPerKg: number;
  plan: OperatorPlan;
  channels: SimulatedChannel[];
  probeFaults: ProbeFault[];
  timing: SimulationTiming;
}

export interface SimulatedPlace {
  stationPressurePa: number;
  airTempC: number;
  airDriftKPerH: number;
  relativeHumidity: number;
  /** Standard deviation of the gusts' relative effect on draught; 0.15 is a breezy yard. */
  gustiness: number;
}

export interface SimulatedStove {
  /** Draught: gas flow when the gas is 400 K above the air. */
  draughtKgPerS: number;
  /** Heat passing between gas and body in the riser; small behind an insulated sleeve. */
  riserToBodyWPerK: number;
  /** Heat passing between gas and the pot's outside. */
  gasToPotWPerK: number;
  bodyMassKg: number;
  bodySpecificHeatJPerKgK: number;
  bodyLossWPerK: number;
  bodyStartTempC: number;
  /** Share of the gases' heating value that burns inside the stove. */
  combustionCompleteness: number;
  /** Time a charge of split wood flames in a hot firebox. */
  flamingTimeS: number;
  /** Old char left in the firebox at the start. */
  oldCharKg: number;
}

export interface SimulatedVessel {
  massKg: number;
  specificHeatJPerKgK: number;
  innerDiameterM: number;
  sideLossWPerK: number;
  /** Share of the open pot's surface evaporation that escapes past the lid. */
  lidLeak: number;
}

export interface SimulatedLoad {
  waterKg: number;
  startTempC: number;
  contents?: SimulatedContents;
}

/** Jars or goods: one lump that lags the water. */
export interface SimulatedContents {
  massKg: number;
  specificHeatJPerKgK: number;
  waterToContentsWPerK: number;
}

export interface SimulatedWood {
  netDryMJPerKg: number;
  /** Mean wet-basis moisture of the whole lot, and how single charges scatter and drift through the burn. */
  moistureWet: number;
  moistureScatter: number;
  moistureDriftPerCharge: number;
}

export interface OperatorPlan {
  target: { kind: 'boil' } | { kind: 'temperature'; tempC: number };
  holdS: number;
  litAtS: number;
  potOnAfterLitS: number;
  kindlingKg: number;
  firstChargeKg: number;
  chargeKg: number;
  holdChargeKg: number;
  /** Relative scatter of a charge around the intended mass. */
  chargeScatter: number;
  /** Wood (oven-dry) on the grate below which the person adds a charge. */
  feedBelowKg: number;
  holdFeedBelowKg: number;
  /** Typical delay between seeing and doing. */
  reactionS: number;
  nudges: boolean;
  lidOnToTarget: boolean;
  lidOnInHold: boolean;
  /** Wood carried to the stove beyond what is burnt. */
  spareWoodKg: number;
  /** The pot is weighed (or dipped), lid on, this long after fire out. */
  weighWaterAfterS: number;
  /** Water poured in during the hold. */
  topUps: { afterTargetS: number; massKg: number; tempC: number }[];
  /** The person gives up this long after lighting, whether or not the target is reached. */
  giveUpAfterS: number;
}

export interface SimulationTiming {
  /** Step of the physics; 1 or 2 s. */
  stepS: number;
  /** A scan every so many seconds; a whole number of steps. */
  readingEveryS: number;
  /** Recording goes on this long after fire out. */
  recordAfterFireOutS: number;
  /** Uptime of the board when recording starts, and its clock's error. */
  boardUptimeMs: number;
  boardClockPpm: number;
}
