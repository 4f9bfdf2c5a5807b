import { describe, expect, test } from 'vitest';
import { mean, standardDeviation } from '../../shared/statistics/moments.ts';
import { normalCdf } from '../../shared/statistics/normal-distribution.ts';
import { createRandom, createRandomFromState, expandSeed } from '../../shared/statistics/random.ts';

describe('the raw generator', () => {
  test('agrees with the reference implementation of xoshiro128++ from the state 1, 2, 3, 4', () => {
    // prng.di.unimi.it/xoshiro128plusplus.c, as listed in the tests of the rand_xoshiro crate.
    const random = createRandomFromState([1, 2, 3, 4]);
    const words = Array.from({ length: 10 }, () => random.word());
    expect(words).toEqual([
      641, 1573767, 3222811527, 3517856514, 836907274, 4247214768, 3867114732, 1355841295, 495546011, 621204420,
    ]);
  });

  test('expands a seed as SplitMix64 does', () => {
    // Tests of the rand_xoshiro crate: seed 1477776061723855037 gives first 1985237415132408290, 2979275885539914483.
    const [a, b, c, d] = expandSeed(1477776061723855037n);
    expect((BigInt(b) << 32n) | BigInt(a)).toBe(1985237415132408290n);
    expect((BigInt(d) << 32n) | BigInt(c)).toBe(2979275885539914483n);
  });

  test('gives the same stream for the same seed and another for another', () => {
    const stream = (seed: number | string) =>
      Array.from(
        { length: 5 },
        (
          (random) => () =>
            random.word()
        )(createRandom(seed)),
      );
    expect(stream('Heron 2')).toEqual(stream('Heron 2'));
    expect(stream(7)).toEqual(stream(7));
    const seeds = ['Heron 2', 'Heron 1', 'é', 7, 8, -7, 0.5, 1e300];
    expect(new Set(seeds.map((seed) => stream(seed).join())).size).toBe(seeds.length);
  });

  test('refuses a seed that is not a number and a state of zeros', () => {
    expect(() => createRandom(Number.NaN)).toThrow(/finite/);
    expect(() => createRandomFromState([0, 0, 0, 0])).toThrow(/zero/);
  });
});

describe('normal draws', () => {
  const count = 1_000_000;
  const draws = new Float64Array(count);
  createRandom('normal draws').fillNormal(draws);

  test('have the moments of a standard normal', () => {
    expect(Math.abs(mean(draws))).toBeLessThan(4 / Math.sqrt(count));
    expect(Math.abs(standardDeviation(draws) - 1)).toBeLessThan(4 / Math.sqrt(2 * count));
    const fourth = draws.reduce((sum, x) => sum + x ** 4, 0) / count;
    expect(Math.abs(fourth - 3)).toBeLessThan(4 * Math.sqrt(96 / count));
  });

  test('fill two hundred equally likely cells evenly, inside the layers and in the tails', () => {
    const cells = new Float64Array(200);
    for (const x of draws) cells[Math.min(199, Math.floor(normalCdf(x) * 200))]! += 1;
    const chiSquare = cells.reduce((sum, seen) => sum + (seen - count / 200) ** 2 / (count / 200), 0);
    // 199 degrees of freedom: mean 199, standard deviation 20.
    expect(Math.abs(chiSquare - 199)).toBeLessThan(4 * 20);
    const expectedBeyond = 2 * normalCdf(-3.6541528853610088) * count;
    const beyond = draws.reduce((seen, x) => seen + (Math.abs(x) > 3.6541528853610088 ? 1 : 0), 0);
    expect(Math.abs(beyond - expectedBeyond)).toBeLessThan(4 * Math.sqrt(expectedBeyond));
  });

  test('are not correlated with the draw before', () => {
    let products = 0;
    for (let index = 1; index < count; index++) products += draws[index]! * draws[index - 1]!;
    expect(Math.abs(products / count)).toBeLessThan(4 / Math.sqrt(count));
  });
});

describe('uniform draws', () => {
  test('never reach an end and are uniform', () => {
    const draws = new Float64Array(200_000);
    const random = createRandom(3);
    random.fillUniform(draws);
    expect(draws.every((u) => u > 0 && u < 1)).toBe(true);
    expect(Math.abs(mean(draws) - 0.5)).toBeLessThan(4 * Math.sqrt(1 / 12 / draws.length));
    for (let index = 0; index < draws.length; index++) draws[index] = random.rectangular(2);
    expect(Math.max(...draws.subarray(0, 50_000))).toBeLessThan(2);
    expect(Math.abs(standardDeviation(draws) - 2 / Math.sqrt(3))).toBeLessThan(0.01);
  });
});
