import { describe, expect, it } from 'vitest';
import { scanValues } from '../../server/readings/scan-values.ts';
import { firstPlacement } from '../../server/setup/first-placement.ts';
import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import { assessQuality } from '../../shared/analysis/curves/quality.ts';
import { burnRecordSchema, type Channel } from '../../shared/contract/burn-record.ts';
import { type ColumnUnit, columnUnits } from '../../shared/contract/ucum-units.ts';
import { plainScale } from '../../shared/plain-lines/read-line.ts';
import { inUnit, storedUnits, toStored } from '../../shared/plain-lines/stored-units.ts';
import { makeBurn, plainBurn } from '../analysis/support/hand-made-burn.ts';
import fc from '../support/properties.ts';

const BOARD = '01995f3a-7c2e-7d41-9b1e-3f60a2c4d581';
const ID = '01995f3a-7c2e-7d41-9b1e-3f60a2c4d582';

/** The channel of a plain board whose numbers are in a unit. */
function channelIn(unit: ColumnUnit, label = 'Pot'): Channel {
  const described = { index: 0, quantity: '', unit, scale: plainScale({}), probe: null, resolution: null, label };
  return { id: ID, boardId: BOARD, index: 0, ...firstPlacement({ ...described, form: { kind: 'value' } }) };
}

const readAs = (unit: ColumnUnit, count: number) => scanValues([channelIn(unit)], BOARD, [count]);

describe('A reading in its printed unit', () => {
  // Fixed points in both units: ITS-90 states 0 °C as 273.15 K; NIST SP 811, B.8 and B.9 give the conversions.
  it.each([
    ['[degF]', 32, 0],
    ['[degF]', 212, 100],
    ['[degF]', -40, -40],
    ['K', 273.15, 0],
    ['K', 373.15, 100],
    ['g', 1234, 1.234],
    ['[lb_av]', 10, 4.5359237],
    ['hPa', 1013.25, 101_325],
    ['kPa', 101.325, 101_325],
  ] as const)('%s: %d is %d', (unit, printed, value) => {
    expect(readAs(unit, printed * 10_000).values[ID]).toBeCloseTo(value, 9);
  });

  it('is as exact by scale and offset as by the formula, and converts back to the printed text', () => {
    fc.assert(
      fc.property(fc.constantFrom(...columnUnits), fc.integer({ min: -20_000_000, max: 20_000_000 }), (unit, count) => {
        const printed = count / 10_000;
        const { factor, offset, unit: stored } = storedUnits[unit];
        const size = Math.max(1, Math.abs(toStored(printed, unit)));
        expect(Math.abs(printed * factor + offset - toStored(printed, unit)) / size).toBeLessThan(1e-12);
        expect(inUnit(toStored(printed, unit), stored, unit)).toBeCloseTo(printed, 6);
      }),
    );
  });

  it('makes a burn record of the published schema, in °C by its scale and offset', () => {
    const burn = makeBurn(plainBurn);
    const [first] = burn.channels;
    const channel = { ...first!, unit: 'Cel' as const, scale: plainScale({}) * (5 / 9), offset: -160 / 9 };
    const record = burnRecordSchema.parse({ ...burn, channels: [channel] });
    const [readings] = record.readings;
    const columns = [{ channelId: channel.id, counts: readings!.elapsedUs.map(() => 2_120_000) }];
    const [curve] = channelCurves({ ...record, readings: [{ ...readings!, columns }] });
    expect(curve!.value[0]).toBeCloseTo(100, 9);
  });
});

describe('A physically impossible value', () => {
  it.each([
    ['Cel', -300],
    ['Cel', 20_000],
    ['[degF]', -500],
    ['K', -1],
    ['kg', -20_000],
    ['Pa', -150_000],
  ] as const)('%s: %d is out of range on the live screen', (unit, printed) => {
    expect(readAs(unit, printed * 10_000)).toEqual({ values: {}, faults: { [ID]: 'outOfRange' } });
  });

  it('is not that of a tared scale, or of a cold room', () => {
    expect(readAs('kg', -125_000).values[ID]).toBeCloseTo(-12.5, 9);
    expect(readAs('Cel', -2_000_000).values[ID]).toBeCloseTo(-200, 9);
  });

  it('is stored as printed, and flagged for the results', () => {
    const burn = makeBurn(plainBurn);
    const [readings] = burn.readings;
    const [column] = readings!.columns;
    const channel = burn.channels.find(({ id }) => id === column!.channelId)!;
    const counts = [...column!.counts];
    counts[50] = Math.round(-300 / channel.scale);
    const record = { ...burn, readings: [{ ...readings!, columns: [{ ...column!, counts }] }] };
    const curves = channelCurves(record);
    expect(curves[0]!.value[50]).toBeNaN();
    expect(curves[0]!.faults).toContainEqual([50, 'outOfRange']);
    expect(record.readings[0]!.columns[0]!.counts[50]).toBe(Math.round(-300 / channel.scale));
    const flags = assessQuality(record, curves)[0]!.stretches();
    expect(flags.map(({ code }) => code)).toContain('outOfRange');
  });
});
