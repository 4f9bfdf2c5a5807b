import { describe, expect, it } from 'vitest';
import { checkRecord } from '../../shared/analysis/check-record.ts';
import type { BurnRecord } from '../../shared/contract/burn-record.ts';
import { burnRecordSchema } from '../../shared/contract/burn-record.ts';
import sample from '../../shared/contract/sample-burn-record.json' with { type: 'json' };
import { calibratedProbe, id, makeBurn, mark, plainBurn } from './support/hand-made-burn.ts';

const plain = makeBurn(plainBurn);
const block = plain.readings[0]!;
const problems = (record: BurnRecord) => checkRecord(record).map(({ path, message }) => `${path} ${message.code}`);

describe('an inconsistent burn record', () => {
  it('is neither the plain burn nor the published sample', () => {
    expect(checkRecord(plain)).toEqual([]);
    expect(checkRecord(burnRecordSchema.parse(sample))).toEqual([]);
  });

  it.each([
    [
      'a column is too short',
      { readings: [{ ...block, columns: [{ channelId: calibratedProbe.id, counts: [1, 2] }] }] },
      'readings.0.columns.0.counts columnLength',
    ],
    [
      'time stands still',
      { readings: [{ ...block, elapsedUs: block.elapsedUs.map(() => 5) }] },
      'readings.0.elapsedUs.1 notRising',
    ],
    [
      'readings belong to no channel',
      { readings: [{ ...block, columns: [{ ...block.columns[0]!, channelId: id(999) }] }] },
      'readings.0.columns.0.channelId unknownChannel',
    ],
    ['a channel is read twice', { readings: [block, block] }, 'readings.1.columns.0.channelId readTwice'],
    [
      'a fault lies beyond the column',
      { readings: [{ ...block, columns: [{ ...block.columns[0]!, faults: [[99_999, 'open']] }] }] },
      'readings.0.columns.0.faults faultPlace',
    ],
    [
      'a raw voltage has no cold junction',
      { channels: [{ ...calibratedProbe, unit: 'uV' }] },
      'channels.0 noColdJunction',
    ],
    ['a raw resistance has no probe', { channels: [{ ...calibratedProbe, unit: 'Ohm' }] }, 'channels.0 noConversion'],
    ['an identity stands twice', { channels: [calibratedProbe, calibratedProbe] }, 'channels.1.id twice'],
    [
      'a feed names no lot',
      { marks: [{ ...mark('fed', 5), id: id(1), fuelLotId: id(998) }] },
      'marks.0.fuelLotId unknownLot',
    ],
    [
      'a weighing names no scale',
      { weighings: [{ id: id(1), of: 'char', when: 'end', massKg: 1, scaleId: id(997) }] },
      'weighings.0.scaleId unknownScale',
    ],
    ['a weighing is empty', { weighings: [{ id: id(1), of: 'char', when: 'end' }] }, 'weighings.0 weighingEmpty'],
    [
      'a weighing is pending and done',
      { weighings: [{ id: id(1), of: 'char', when: 'end', massKg: 1, pending: true }] },
      'weighings.0 weighingTwofold',
    ],
    [
      'wood is measured by volume',
      { weighings: [{ id: id(1), of: 'fuelPile', when: 'end', volumeL: 1 }] },
      'weighings.0.volumeL volumeOfSolid',
    ],
    [
      'char has a moisture',
      {
        weighings: [
          { id: id(1), of: 'char', when: 'end', massKg: 1, moisture: { fraction: 0.1, basis: 'wet', how: 'guess' } },
        ],
      },
      'weighings.0.moisture moistureOfOther',
    ],
    ['a gap ends before it starts', { gaps: [{ fromUs: 5, toUs: 4, cause: 'silent' }] }, 'gaps.0 endBeforeStart'],
  ] as [string, Partial<BurnRecord>, string][])('gets the path and reason where %s', (_what, change, expected) => {
    expect(problems({ ...plain, ...change } as BurnRecord)).toContain(expected);
  });

  it('gets at most fifty problems', () => {
    const marks = Array.from({ length: 200 }, (_, at) => ({
      ...plain.marks[0]!,
      id: id(7000 + at),
      kind: 'fed' as const,
      fuelLotId: id(998),
    }));
    expect(checkRecord({ ...plain, marks })).toHaveLength(50);
  });
});
