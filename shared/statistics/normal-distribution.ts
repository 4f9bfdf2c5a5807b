/** The standard normal distribution. */
import { regularisedGammaP, regularisedGammaQ } from './gamma.ts';

/** Share of a standard normal below z, with full relative accuracy in the lower tail (NIST DLMF 7.11.1). */
export function normalCdf(z: number): number {
  if (z < 0) return 0.5 * regularisedGammaQ(0.5, 0.5 * z * z);
  return 0.5 + 0.5 * regularisedGammaP(0.5, 0.5 * z * z);
}

// Coefficients of the three rational approximations, lowest power first, printed to what double precision can hold.
const CENTRE_P = [
  3.3871328727963665, 133.14166789178438, 1971.5909503065513, 13731.69376550946, 45921.95393154987, 67265.7709270087,
  33430.57558358813, 2509.0809287301227,
];
const CENTRE_Q = [
  1, 42.31333070160091, 687.1870074920579, 5394.196021424751, 21213.794301586597, 39307.89580009271, 28729.085735721943,
  5226.495278852546,
];
const TAIL_P = [
  1.4234371107496835, 4.630337846156546, 5.769497221460691, 3.6478483247632045, 1.2704582524523684, 0.2417807251774506,
  0.022723844989269184, 0.0007745450142783414,
];
const TAIL_Q = [
  1, 2.053191626637759, 1.6763848301838038, 0.6897673349851, 0.14810397642748008, 0.015198666563616457,
  0.0005475938084995345, 1.0507500716444169e-9,
];
const FAR_P = [
  6.657904643501103, 5.463784911164114, 1.7848265399172913, 0.29656057182850487, 0.026532189526576124,
  0.0012426609473880784, 0.000027115555687434876, 2.0103343992922881e-7,
];
const FAR_Q = [
  1, 0.599832206555888, 0.1369298809227358, 0.014875361290850615, 0.0007868691311456133, 0.000018463183175100548,
  1.421511758316446e-7, 2.0442631033899397e-15,
];

/**
 * The value below which a standard normal lies with the given probability: algorithm AS 241 (M. J. Wichura, Appl. Stat. 37,
 * 1988), relative error about 1e-16. Probabilities 0 and 1 give −∞ and ∞.
 * @throws RangeError for a probability outside 0 to 1.
 */
export function normalQuantile(probability: number): number {
  if (!(probability >= 0 && probability <= 1)) {
    throw new RangeError(`A probability must lie between 0 and 1; got ${probability}`);
  }
  const fromHalf = probability - 0.5;
  if (Math.abs(fromHalf) <= 0.425) {
    const r = 0.180625 - fromHalf * fromHalf;
    return (fromHalf * polynomial(CENTRE_P, r)) / polynomial(CENTRE_Q, r);
  }
  const tail = fromHalf < 0 ? probability : 1 - probability;
  if (tail === 0) return fromHalf < 0 ? -Infinity : Infinity;
  const r = Math.sqrt(-Math.log(tail));
  const size =
    r <= 5
      ? polynomial(TAIL_P, r - 1.6) / polynomial(TAIL_Q, r - 1.6)
      : polynomial(FAR_P, r - 5) / polynomial(FAR_Q, r - 5);
  return fromHalf < 0 ? -size : size;
}

function polynomial(coefficients: readonly number[], x: number): number {
  return coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}
