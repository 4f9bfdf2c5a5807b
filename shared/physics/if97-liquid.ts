import { integerPower } from './integer-power.ts';

/**
 * Liquid water, IAPWS-IF97 region 1: dimensionless Gibbs energy γ(π, τ) = Σ n (7.1 − π)^I (τ − 1.222)^J with
 * π = p / 16.53 MPa and τ = 1386 K / T.
 *
 * Source: IAPWS R7-97(2012), section 5.1, Table 2 and Table 3. Range: 273.15 to 623.15 K, saturation pressure to
 * 100 MPa. Between 0 and 110 °C near atmospheric pressure it follows the scientific formulation IAPWS-95 to 0.002 % in
 * volume, 0.07 % in specific heat and 0.08 kJ/kg in enthalpy; measured densities are known to 0.001 %.
 */
const TERMS: readonly (readonly [i: number, j: number, n: number])[] = [
  [0, -2, 0.14632971213167],
  [0, -1, -0.84548187169114],
  [0, 0, -0.3756360367204e1],
  [0, 1, 0.33855169168385e1],
  [0, 2, -0.95791963387872],
  [0, 3, 0.15772038513228],
  [0, 4, -0.16616417199501e-1],
  [0, 5, 0.81214629983568e-3],
  [1, -9, 0.28319080123804e-3],
  [1, -7, -0.60706301565874e-3],
  [1, -1, -0.18990068218419e-1],
  [1, 0, -0.32529748770505e-1],
  [1, 1, -0.21841717175414e-1],
  [1, 3, -0.5283835796993e-4],
  [2, -3, -0.47184321073267e-3],
  [2, 0, -0.30001780793026e-3],
  [2, 1, 0.47661393906987e-4],
  [2, 3, -0.44141845330846e-5],
  [2, 17, -0.72694996297594e-15],
  [3, -4, -0.31679644845054e-4],
  [3, 0, -0.28270797985312e-5],
  [3, 6, -0.85205128120103e-9],
  [4, -5, -0.22425281908e-5],
  [4, -2, -0.65171222895601e-6],
  [4, 10, -0.14341729937924e-12],
  [5, -8, -0.40516996860117e-6],
  [8, -11, -0.12734301741641e-8],
  [8, -6, -0.17424871230634e-9],
  [21, -29, -0.68762131295531e-18],
  [23, -31, 0.14478307828521e-19],
  [29, -38, 0.26335781662795e-22],
  [30, -39, -0.11947622640071e-22],
  [31, -40, 0.18228094581404e-23],
  [32, -41, -0.93537087292458e-25],
];

/** Specific gas constant of water, J/(kg·K), as fixed by IAPWS R7-97. */
const GAS_CONSTANT_J_PER_KG_K = 461.526;

function reduced(tempK: number, pressurePa: number) {
  return { a: 7.1 - pressurePa / 16.53e6, b: 1386 / tempK - 1.222, tau: 1386 / tempK };
}

/** Specific volume, m³/kg, at `tempK` and `pressurePa`. Region 1 only; the caller stays within its range. */
export function if97LiquidVolumeM3PerKg(tempK: number, pressurePa: number): number {
  const { a, b } = reduced(tempK, pressurePa);
  let sum = 0;
  for (const [i, j, n] of TERMS) if (i > 0) sum -= n * i * integerPower(a, i - 1) * integerPower(b, j);
  return (sum * GAS_CONSTANT_J_PER_KG_K * tempK) / 16.53e6;
}

/** Specific enthalpy, J/kg (zero internal energy at the triple point). Region 1 only. */
export function if97LiquidEnthalpyJPerKg(tempK: number, pressurePa: number): number {
  const { a, b } = reduced(tempK, pressurePa);
  let sum = 0;
  for (const [i, j, n] of TERMS) sum += n * j * integerPower(a, i) * integerPower(b, j - 1);
  return sum * 1386 * GAS_CONSTANT_J_PER_KG_K;
}

/** Specific heat at constant pressure, J/(kg·K). Region 1 only. */
export function if97LiquidSpecificHeatJPerKgK(tempK: number, pressurePa: number): number {
  const { a, b, tau } = reduced(tempK, pressurePa);
  let sum = 0;
  for (const [i, j, n] of TERMS) sum += n * j * (j - 1) * integerPower(a, i) * integerPower(b, j - 2);
  return -tau * tau * sum * GAS_CONSTANT_J_PER_KG_K;
}
