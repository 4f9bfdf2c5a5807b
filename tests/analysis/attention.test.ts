import { describe, expect, it } from 'vitest';
import { analyse } from '../../shared/analysis/analyse.ts';
import { found, resultValue, whyMissing } from './support/asking.ts';
import { calibratedProbe, type HandMadeBurn, id, makeBurn, mark, plainBurn, ramp } from './support/hand-made-burn.ts';

const feedsAt = (...moments: number[]) => moments.map((moment) => mark('fed', moment, { massKg: 0.5 }));
const burn = (marks: HandMadeBurn['marks'], change: Partial<HandMadeBurn> = {}) =>
  makeBurn({ ...plainBurn, marks: [mark('lit', 300), mark('fireOut', 7500), ...marks], ...change });

describe('time unattended', () => {
  it('is the time between feeds, nudges, lids and re-lighting, from lit to fire out', () => {
    const record = burn([...feedsAt(1500, 3000, 5700), mark('nudged', 3600), mark('lidOn', 4000), mark('relit', 5000)]);
    // 1200, 1500, 600, 400, 1000, 700, 1800 s.
    expect(resultValue(record, 'longestUnattended')).toBe(1800);
    expect(resultValue(record, 'typicalUnattended')).toBe(1000);
  });

  it('is typically known as well as the middle time, or the mean of the two middle ones, is between its marks', () => {
    // Each mark is taken to be known to 20 s; linear propagation of JCGM 100:2008, 5.1.2, through the median.
    const width = (feedsS: readonly number[]) => {
      const { interval95 } = found(analyse(burn(feedsAt(...feedsS)), { draws: 20_000 }), 'typicalUnattended');
      return interval95![1] - interval95![0];
    };
    // 1200, 1500, 4500 s: between two marks.
    expect(width([1500, 3000])).toBeCloseTo(2 * 1.96 * Math.sqrt(2) * 20, -1);
    // 600, 1200, 1500, 3900 s: the middle two share a mark, which falls out.
    expect(width([900, 2100, 3600])).toBeCloseTo(2 * 1.96 * Math.sqrt(1 / 2) * 20, -1);
    // 1200, 600, 1500, 3900 s: the middle two have four marks.
    expect(width([1500, 2100, 3600])).toBeCloseTo(2 * 1.96 * 20, -1);
  });

  it('does not end at marks that do not affect the fire', () => {
    const marks = [
      ...feedsAt(1500),
      mark('wind', 2000, { step: 2 }),
      mark('away', 2500),
      mark('back', 3500),
      mark('note', 4000),
    ];
    expect(resultValue(burn(marks), 'longestUnattended')).toBe(6000);
  });

  it('ends where the fire is no longer sufficient', () => {
    // The water stops warming at 2400 s, long before the target; the next feed is at 4800 s.
    const waterC = (t: number) => (t < 2400 ? ramp(99)(t) : t < 4800 ? 55 : 55 + (t - 4800) / 60);
    const record = burn(feedsAt(1500, 4800, 6300), { waterC });
    expect(resultValue(record, 'longestUnattended')).toBeLessThan(4800 - 1500 - 1200);
  });

  it('ends where the hold is lost', () => {
    const waterC = (t: number) => (t < 6000 ? ramp(99.5)(t) : 99.5 - (t - 6000) / 300);
    const stored = resultValue(burn(feedsAt(1500, 5200)), 'longestUnattended');
    expect(resultValue(burn(feedsAt(1500, 5200), { waterC }), 'longestUnattended')).toBe(stored);
    expect(resultValue(burn(feedsAt(1500, 2000, 3000, 4000, 5200), { waterC }), 'longestUnattended')).toBeLessThan(
      7500 - 5200,
    );
  });

  it('is missing without marks', () => {
    expect(whyMissing(burn([]), 'longestUnattended')).toBe('noAttention');
  });
});

describe('recovery after a feed', () => {
  /** The rate falls to a third for a while after each feed. */
  const dipping = (feedsS: readonly number[], lastsS: number) => {
    const temps = new Float64Array(8000);
    let tempC = 20;
    for (let t = 0; t < temps.length; t++) {
      const slow = feedsS.some((feedS) => t > feedS && t < feedS + lastsS);
      if (t > 300) tempC = Math.min(99.5, tempC + (slow ? 0.33 : 1) / 60);
      temps[t] = tempC;
    }
    return (t: number) => temps[Math.round(t)]!;
  };

  it('is the time until the heating rate has recovered', () => {
    const feedsS = [1500, 2700, 3900];
    const record = burn(feedsAt(...feedsS), { waterC: dipping(feedsS, 300) });
    expect(Math.abs(resultValue(record, 'recoveryAfterFeed') - 300)).toBeLessThan(100);
  });

  it('is zero when the rate never fell, and missing without feeds before the target', () => {
    expect(resultValue(burn(feedsAt(1500, 2700)), 'recoveryAfterFeed')).toBe(0);
    expect(whyMissing(burn(feedsAt(6500)), 'recoveryAfterFeed')).toBe('noFeedBeforeTarget');
  });
});

describe('suggestions from the curves', () => {
  const riser = {
    ...calibratedProbe,
    id: id(140),
    name: 'riser',
    role: 'riser' as const,
    scale: 0.25,
    calibration: undefined,
  } as never;
  const hot = (openingsS: readonly number[]) => (t: number) => {
    if (t < 300 || t > 7500) return 20 + (t > 7500 ? 500 * Math.exp(-(t - 7500) / 120) : 0);
    const level = 20 + 500 * (1 - Math.exp(-(t - 300) / 120));
    return openingsS.reduce(
      (temp, openS) => temp - (t > openS && t < openS + 60 ? 150 : 0) + (t >= openS + 60 && t < openS + 500 ? 120 : 0),
      level,
    );
  };

  it('include a feed without a mark, and none with a mark', () => {
    const reads = (channel: { role: string }, t: number) =>
      channel.role === 'riser' ? hot([2000, 4000])(t) : ramp(99.5)(t);
    const record = burn(feedsAt(2010), { channels: [calibratedProbe, riser], reads });
    const { suggestedFeedsS } = analyse(record, { draws: 0 });
    expect(suggestedFeedsS).toHaveLength(1);
    expect(Math.abs(suggestedFeedsS[0]! - 4000)).toBeLessThan(120);
  });

  it('include no fall of the fire that only a gap in the readings follows', () => {
    const falls = (t: number) => hot([])(t) - (t > 4000 ? 100 : 0);
    const reads = (channel: { role: string }, t: number) =>
      channel.role !== 'riser' ? ramp(99.5)(t) : t > 4100 && t < 4160 ? null : falls(t);
    const record = burn([], { channels: [calibratedProbe, riser], reads });
    expect(analyse(record, { draws: 0 }).suggestedFeedsS).toEqual([]);
  });

  it('include a pile that gets lighter', () => {
    const scale = {
      id: id(141),
      boardId: id(50),
      name: 'pile',
      role: 'fuelScale' as const,
      unit: 'kg' as const,
      scale: 0.001,
    };
    const reads = (channel: { role: string }, t: number) =>
      channel.role === 'fuelScale' ? (t < 3000 ? 4 : 3.5) : ramp(99.5)(t);
    const record = burn(feedsAt(1000), { channels: [calibratedProbe, scale], reads });
    expect(analyse(record, { draws: 0 }).suggestedFeedsS.map((moment) => Math.round(moment / 60))).toEqual([50]);
  });

  it('include lit and fire out, separate from the person’s marks', () => {
    const reads = (channel: { role: string }, t: number) => (channel.role === 'riser' ? hot([])(t) : ramp(99.5)(t));
    const record = burn([mark('lit', 360)], { channels: [calibratedProbe, riser], reads });
    const marked = analyse(
      { ...record, marks: record.marks.filter(({ elapsedUs }) => elapsedUs !== 300e6) },
      { draws: 0 },
    ).moments;
    const lit = marked.find(({ kind }) => kind === 'lit')!;
    expect(lit).toMatchObject({ elapsedS: 360, source: 'person' });
    expect(Math.abs(lit.detectedElapsedS! - 300)).toBeLessThan(20);
    const unmarked = analyse({ ...record, marks: [] }, { draws: 0 }).moments;
    expect(Math.abs(unmarked.find(({ kind }) => kind === 'fireOut')!.elapsedS - 7500)).toBeLessThan(200);
    expect(unmarked.find(({ kind }) => kind === 'fireOut')).toMatchObject({ source: 'detected' });
  });
});
