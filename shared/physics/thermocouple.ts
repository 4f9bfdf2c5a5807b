import { polynomial, polynomialSlope } from './polynomial.ts';
import { requireWithin } from './range.ts';
import { type ForwardPiece, THERMOCOUPLE_FUNCTIONS, type ThermocoupleType } from './thermocouple-coefficients.ts';

export type { ThermocoupleType } from './thermocouple-coefficients.ts';
export { type ThermocoupleToleranceClass, thermocoupleToleranceK } from './thermocouple-tolerance.ts';

/**
 * Letter-designated thermocouples, ITS-90 (NIST Standard Reference Database 60, IEC 60584-1): voltage from temperature
 * by the reference functions, temperature from voltage by exact inversion of the same functions. The approximate
 * inverse polynomials (up to 0.06 °C wrong) only seed the search for the table.
 */
export const THERMOCOUPLE_TYPES: readonly ThermocoupleType[] = ['K', 'J', 'T', 'N', 'E', 'S', 'R', 'B'];

/**
 * The last bits of the polynomial are rounding noise, so a voltage computed from a temperature just inside a limit can
 * lie just outside the voltage of the limit. 1e-9 mV is some 3e-8 °C.
 */
const ROUNDING_MV = 1e-9;
/**
 * A last step of Newton's rule shorter than this, K, leaves less than 1e-12 K: the error of the next is the square of
 * it times half the relative change of the sensitivity, below 0.5 per K for every type.
 */
const CLOSE_K = 1e-6;

/**
 * Intervals of equal voltage over the range of a type. A cubic from node to node is closer than 1e-6 °C nearly
 * everywhere, so that one step of Newton's rule is enough where the published inverse needs two.
 */
const SEED_INTERVALS = 1024;

interface Seeds {
  readonly perMillivolt: number;
  readonly tempC: Float64Array;
  /** Rise of the temperature along one interval, with the slope at the node. */
  readonly riseK: Float64Array;
}

const seeds: Partial<Record<ThermocoupleType, Seeds>> = {};

function createSeeds(type: ThermocoupleType): Seeds {
  const { low, high } = VOLTAGES[type];
  const { inverse } = THERMOCOUPLE_FUNCTIONS[type];
  const stepMillivolts = (high - low) / SEED_INTERVALS;
  const tempC = new Float64Array(SEED_INTERVALS + 1);
  const riseK = new Float64Array(SEED_INTERVALS + 1);
  for (let node = 0; node <= SEED_INTERVALS; node++) {
    const millivolts = low + node * stepMillivolts;
    const piece = pieceAt(type, millivolts);
    const published = inverse.find(({ toMillivolts }) => millivolts <= toMillivolts) ?? inverse.at(-1)!;
    tempC[node] = solve(piece, millivolts, polynomial(published.coefficients, millivolts));
    riseK[node] = stepMillivolts / pieceSlope(piece, tempC[node]!);
  }
  return { perMillivolt: 1 / stepMillivolts, tempC, riseK };
}

/** The piece of a voltage in the range. */
function pieceAt(type: ThermocoupleType, millivolts: number): ForwardPiece {
  const { pieceTops } = VOLTAGES[type];
  const { forward } = THERMOCOUPLE_FUNCTIONS[type];
  let part = 0;
  while (part < forward.length - 1 && millivolts > pieceTops[part]!) part++;
  return forward[part]!;
}

/** Newton's rule on one piece of the reference function. */
function solve(piece: ForwardPiece, millivolts: number, fromC: number): number {
  let tempC = fromC;
  for (let step = 0; step < 10; step++) {
    const change = newtonStep(piece, tempC, millivolts);
    tempC -= change;
    if (Math.abs(change) < CLOSE_K) break;
  }
  return tempC;
}

function pieceMillivolts(piece: ForwardPiece, tempC: number): number {
  const sum = polynomial(piece.coefficients, tempC);
  if (piece.exponential === undefined) return sum;
  const [a0, a1, a2] = piece.exponential;
  return sum + a0 * Math.exp(a1 * (tempC - a2) * (tempC - a2));
}

function pieceSlope(piece: ForwardPiece, tempC: number): number {
  const slope = polynomialSlope(piece.coefficients, tempC);
  if (piece.exponential === undefined) return slope;
  const [a0, a1, a2] = piece.exponential;
  return slope + 2 * a0 * a1 * (tempC - a2) * Math.exp(a1 * (tempC - a2) * (tempC - a2));
}

/** How far `tempC` lies above the temperature that gives `millivolts`, by a straight line; voltage and slope in one pass. */
function newtonStep({ coefficients, exponential }: ForwardPiece, tempC: number, millivolts: number): number {
  let voltage = 0;
  let slope = 0;
  for (let power = coefficients.length - 1; power >= 0; power--) {
    slope = slope * tempC + voltage;
    voltage = voltage * tempC + coefficients[power]!;
  }
  if (exponential !== undefined) {
    const [a0, a1, a2] = exponential;
    const bell = a0 * Math.exp(a1 * (tempC - a2) * (tempC - a2));
    voltage += bell;
    slope += 2 * a1 * (tempC - a2) * bell;
  }
  return (voltage - millivolts) / slope;
}

/** The piece that contains `tempC`; a joint belongs to the piece below it, so type K is exactly 0 mV at 0 °C. */
function forwardPiece(type: ThermocoupleType, tempC: number): ForwardPiece {
  const { low, high } = thermocoupleRangeC(type);
  requireWithin(`The temperature of a type ${type} thermocouple`, tempC, low, high, '°C');
  return THERMOCOUPLE_FUNCTIONS[type].forward.find((piece) => tempC <= piece.toC)!;
}

/** Temperatures, °C, over which the reference function of `type` is defined. */
export function thermocoupleRangeC(type: ThermocoupleType): { low: number; high: number } {
  const pieces = THERMOCOUPLE_FUNCTIONS[type].forward;
  return { low: pieces[0]!.fromC, high: pieces[pieces.length - 1]!.toC };
}

/**
 * Voltage, mV, of a thermocouple with its measuring junction at `tempC` and its reference junction at 0 °C. Range: that
 * of the reference function (type K −270 to 1372 °C; see `thermocoupleRangeC`). The function is a definition;
 * `thermocoupleToleranceK` is the deviation of real wire from it.
 * @throws RangeError outside the range.
 */
export function thermocoupleMillivolts(type: ThermocoupleType, tempC: number): number {
  return pieceMillivolts(forwardPiece(type, tempC), tempC);
}

/**
 * Sensitivity (Seebeck coefficient), µV/K, at `tempC`: the analytic derivative of the reference function.
 * @throws RangeError outside the range of the reference function.
 */
export function thermocoupleSensitivityUvPerK(type: ThermocoupleType, tempC: number): number {
  return 1000 * pieceSlope(forwardPiece(type, tempC), tempC);
}

/**
 * Temperatures, °C, over which `thermocoupleTempC` inverts the reference function: those of the published inverse
 * functions (type K −200 to 1372 °C). Type B is not single-valued below about 42 °C and starts at 250 °C.
 */
export function thermocoupleInverseRangeC(type: ThermocoupleType): { low: number; high: number } {
  const inverse = THERMOCOUPLE_FUNCTIONS[type].inverse;
  return { low: inverse[0]!.fromC, high: thermocoupleRangeC(type).high };
}

/** The voltages, mV, that `thermocoupleTempC` accepts: the reference function at the ends of the inverse range. */
export function thermocoupleRangeMillivolts(type: ThermocoupleType): { low: number; high: number } {
  return VOLTAGES[type];
}

/**
 * Limits of the inversion and the voltage at the top of each forward piece, computed once because every reading needs
 * them.
 */
function voltages(type: ThermocoupleType) {
  const { low, high } = thermocoupleInverseRangeC(type);
  return {
    low: thermocoupleMillivolts(type, low),
    high: thermocoupleMillivolts(type, high),
    pieceTops: THERMOCOUPLE_FUNCTIONS[type].forward.map((piece) => pieceMillivolts(piece, piece.toC)),
  };
}

const VOLTAGES = Object.fromEntries(THERMOCOUPLE_TYPES.map((type) => [type, voltages(type)])) as Readonly<
  Record<ThermocoupleType, ReturnType<typeof voltages>>
>;

/**
 * Temperature, °C, of the measuring junction from the voltage with the reference junction at 0 °C. Newton's rule on
 * the reference function, seeded by a table of such temperatures; agrees with the forward function to 1e-9 °C
 * (2e-6 °C at a joint between two pieces, where the published functions themselves do not quite meet).
 * @throws RangeError for a voltage outside `thermocoupleRangeMillivolts(type)`.
 */
export function thermocoupleTempC(type: ThermocoupleType, millivolts: number): number {
  const { low, high } = VOLTAGES[type];
  requireWithin(`The voltage of a type ${type} thermocouple`, millivolts, low - ROUNDING_MV, high + ROUNDING_MV, 'mV');
  const column = Float64Array.of(Math.min(high, Math.max(low, millivolts)));
  thermocoupleTempsC(type, column);
  return column[0]!;
}

/** The same for a column of voltages, mV, in place; NaN for one outside `thermocoupleRangeMillivolts(type)`. */
export function thermocoupleTempsC(type: ThermocoupleType, column: Float64Array): void {
  const { low, high } = VOLTAGES[type];
  seeds[type] ??= createSeeds(type);
  const { tempC, riseK, perMillivolt } = seeds[type];
  for (let index = 0; index < column.length; index++) {
    const millivolts = column[index]!;
    if (!(millivolts >= low && millivolts <= high)) {
      column[index] = Number.NaN;
      continue;
    }
    const piece = pieceAt(type, millivolts);
    // Cubic Hermite interpolation between the nodes.
    const position = (millivolts - low) * perMillivolt;
    const node = Math.min(SEED_INTERVALS - 1, Math.floor(position));
    const share = position - node;
    const fromC = tempC[node]!;
    const changeK = tempC[node + 1]! - fromC;
    const fromK = riseK[node]!;
    const toK = riseK[node + 1]!;
    const seedC =
      fromC + share * (fromK + share * (3 * changeK - 2 * fromK - toK + share * (fromK + toK - 2 * changeK)));
    column[index] = Math.min(piece.toC, Math.max(piece.fromC, solve(piece, millivolts, seedC)));
  }
}

/**
 * Temperature, °C, of the measuring junction from the voltage measured with the reference (cold) junction at
 * `coldJunctionC`. By the law of intermediate temperatures the voltages add, never the temperatures:
 * E(t) = E_measured + E(t_cold).
 * @throws RangeError when the cold junction or the summed voltage is outside the range of the type.
 */
export function compensatedTempC(type: ThermocoupleType, measuredMillivolts: number, coldJunctionC: number): number {
  return thermocoupleTempC(type, measuredMillivolts + thermocoupleMillivolts(type, coldJunctionC));
}
