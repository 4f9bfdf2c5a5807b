/**
 * A seeded generator of uniform and normal numbers, fast enough to fill the draws of a whole Monte Carlo run.
 *
 * Sources: D. Blackman, S. Vigna, "Scrambled linear pseudorandom number generators", ACM Trans. Math. Softw. 47 (2021):
 * xoshiro128++ and its advice to seed by SplitMix64 (G. Steele, D. Lea, C. Flood, OOPSLA 2014). Text seeds are hashed by
 * 64-bit FNV-1a (G. Fowler, L. C. Noll, K.-P. Vo). Normals: see ziggurat.ts.
 */
import { HALF_WIDTH_PER_STEP, STEPS_INSIDE, TAIL_START, WEDGE_DENSITY } from './ziggurat.ts';

/** A stream of independent random numbers. The same seed always gives the same stream. */
export interface Random {
  /** Next raw word of the generator, an integer from 0 to 2³² − 1. */
  word(): number;
  /** Uniform on the open interval (0, 1), with 53 random bits. */
  uniform(): number;
  /** Standard normal: mean 0, standard deviation 1. */
  normal(): number;
  /** Uniform on (−halfWidth, halfWidth); its standard deviation is halfWidth/√3. */
  rectangular(halfWidth: number): number;
  /** Fills the array with standard normals. */
  fillNormal(target: Float64Array): void;
  /** Fills the array with numbers uniform on the open interval (0, 1), with 32 random bits each. */
  fillUniform(target: Float64Array): void;
}

const TWO_TO_MINUS_32 = 2 ** -32;
const TWO_TO_MINUS_53 = 2 ** -53;
const UINT64 = (1n << 64n) - 1n;
const WORDS_PER_BLOCK = 1024;

/**
 * A generator started from a number or a text.
 * @throws RangeError if a numeric seed is not finite.
 */
export function createRandom(seed: number | string): Random {
  if (typeof seed === 'number' && !Number.isFinite(seed)) {
    throw new RangeError(`A random seed must be a finite number or a text, not ${seed}`);
  }
  const start =
    typeof seed === 'number' && Number.isSafeInteger(seed) ? BigInt.asUintN(64, BigInt(seed)) : fnv1a64(`${seed}`);
  return createRandomFromState(expandSeed(start));
}

/**
 * A generator started from its four 32-bit state words, as the published reference code is. Not all may be zero.
 * @throws RangeError if all four words are zero, the one state the generator never leaves.
 */
export function createRandomFromState(state: readonly [number, number, number, number]): Random {
  const nextInt32 = wordSource(state);

  function uniform(): number {
    const high = nextInt32() >>> 6;
    const low = nextInt32() >>> 5;
    // The half step excludes both ends: a logarithm of the result is always finite.
    return (high * 134217728 + low + 0.5) * TWO_TO_MINUS_53;
  }

  function normal(): number {
    const bits = nextInt32();
    // Seven low bits choose the layer, the 25 others the position in it: shared bits would spoil the distribution (P.
    // H. W. Leong et al., J. Stat. Softw. 12, 2005).
    const layer = bits & 127;
    const steps = bits >> 7;
    // Distance from the axis without a branch on the sign, which no processor can predict.
    const distance = steps ^ (steps >> 31);
    return distance < STEPS_INSIDE[layer]! ? (steps + 0.5) * HALF_WIDTH_PER_STEP[layer]! : resolveLayer(layer, steps);
  }

  /**
   * The rare draw that does not certainly lie under the curve. A separate function, so that the common case stays small
   * and fast.
   */
  function resolveLayer(layer: number, steps: number): number {
    if (layer === 0) return steps < 0 ? -normalTail() : normalTail();
    const x = (steps + 0.5) * HALF_WIDTH_PER_STEP[layer]!;
    const low = WEDGE_DENSITY[layer]!;
    const height = low + uniform() * (WEDGE_DENSITY[layer + 1]! - low);
    return height < Math.exp(-0.5 * x * x) ? x : normal();
  }

  /** A normal known to lie beyond the last layer (G. Marsaglia, Technometrics 6, 1964). */
  function normalTail(): number {
    for (;;) {
      const beyond = -Math.log(uniform()) / TAIL_START;
      if (-2 * Math.log(uniform()) > beyond * beyond) return TAIL_START + beyond;
    }
  }

  return {
    word: () => nextInt32() >>> 0,
    uniform,
    normal,
    rectangular: (halfWidth) => (2 * uniform() - 1) * halfWidth,
    fillNormal(target) {
      for (let index = 0; index < target.length; index++) target[index] = normal();
    },
    fillUniform(target) {
      for (let index = 0; index < target.length; index++) target[index] = ((nextInt32() >>> 0) + 0.5) * TWO_TO_MINUS_32;
    },
  };
}

/**
 * The stream of signed 32-bit words of xoshiro128++. Words are made a block at a time: the four state words then stay in
 * registers, which makes a draw three times faster.
 */
function wordSource(state: readonly [number, number, number, number]): () => number {
  const saved = Int32Array.from(state, (word) => word | 0);
  if (saved.every((word) => word === 0))
    throw new RangeError('The four state words of a generator must not all be zero');
  const block = new Int32Array(WORDS_PER_BLOCK);
  let position = WORDS_PER_BLOCK;

  function refill(): void {
    let a = saved[0]!;
    let b = saved[1]!;
    let c = saved[2]!;
    let d = saved[3]!;
    for (let index = 0; index < WORDS_PER_BLOCK; index++) {
      const sum = (a + d) | 0;
      block[index] = ((sum << 7) | (sum >>> 25)) + a;
      const shifted = b << 9;
      c ^= a;
      d ^= b;
      b ^= c;
      a ^= d;
      c ^= shifted;
      d = (d << 11) | (d >>> 21);
    }
    saved[0] = a;
    saved[1] = b;
    saved[2] = c;
    saved[3] = d;
    position = 0;
  }

  return () => {
    if (position === WORDS_PER_BLOCK) refill();
    return block[position++]!;
  };
}

/** Four state words from one 64-bit seed: two rounds of SplitMix64, low half first. */
export function expandSeed(seed: bigint): [number, number, number, number] {
  const first = splitMix64(seed);
  const second = splitMix64(BigInt.asUintN(64, seed + 0x9e3779b97f4a7c15n));
  const low = (word: bigint) => Number(word & 0xffffffffn);
  const high = (word: bigint) => Number(word >> 32n);
  return [low(first), high(first), low(second), high(second)];
}

/** The output of SplitMix64 for a state that has not yet been advanced. */
function splitMix64(state: bigint): bigint {
  let z = BigInt.asUintN(64, state + 0x9e3779b97f4a7c15n);
  z = BigInt.asUintN(64, (z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n);
  z = BigInt.asUintN(64, (z ^ (z >> 27n)) * 0x94d049bb133111ebn);
  return z ^ (z >> 31n);
}

function fnv1a64(text: string): bigint {
  let hash = 0xcbf29ce484222325n;
  for (const byte of utf8Bytes(text)) hash = ((hash ^ BigInt(byte)) * 0x100000001b3n) & UINT64;
  return hash;
}

/** UTF-8 without TextEncoder, which is not part of the language. */
function utf8Bytes(text: string): number[] {
  return Array.from(encodeURIComponent(text).matchAll(/%([0-9A-F]{2})|(.)/g), ([, escaped, plain]) =>
    escaped === undefined ? plain!.charCodeAt(0) : Number.parseInt(escaped, 16),
  );
}
