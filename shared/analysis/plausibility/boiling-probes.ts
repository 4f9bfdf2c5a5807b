/** Compares each water probe with the boiling point of the place: which of them are wrong, or that all are. */
import type { BurnRecord, Channel } from '../../contract/burn-record.ts';
import type { Message } from '../../contract/results.ts';
import { channelCurves } from '../curves/channel-curve.ts';
import { findPlateau } from '../curves/plateau.ts';
import { scanPeriodS } from '../curves/segments.ts';
import type { ContradictionCode } from '../messages/contradiction-codes.ts';
import type { PlaceBoilingPoint } from '../quantities/boiling-point-of-place.ts';
import { coldJunctionOf, probeErrors } from '../quantities/probe-errors.ts';
import { DEEPEST_K, SOFTEST_K } from '../quantities/water-temperature.ts';

/**
 * Number of standard uncertainties beyond which a probe counts as wrong: never within the tolerance of its class, which
 * is rectangular.
 */
const DOUBTED_U = 3;

/**
 * A probe that rests above every possible temperature of boiling water is wrong, in any water; one that rests below is
 * wrong where another one shows that the water boiled.
 * @param fromS to `toS`: while the fire heated the water
 */
export function probesAgainstBoil(record: BurnRecord, place: PlaceBoilingPoint, fromS: number, toS: number): Message[] {
  const channels = record.channels.filter(({ role }) => role === 'water');
  const rested = channelCurves({ ...record, channels: [...channels, ...coldJunctionsOf(record, channels)] }).flatMap(
    ({ channel, timeS, value }) => {
      if (channel.role !== 'water' || channel.handRead) return [];
      const curve = { timeS, tempC: value, periodS: scanPeriodS(timeS), noiseK: 0, restingU: 0 };
      const levelC = findPlateau(curve, fromS, toS, [])?.levelC;
      return levelC === undefined ? [] : [{ channel, overK: levelC - place.tempC, u: doubtU(record, channel, place) }];
    },
  );
  const high = rested.filter(({ overK, u }) => overK > DEEPEST_K + DOUBTED_U * u);
  const low = rested.filter(({ overK, u }) => overK < SOFTEST_K - DOUBTED_U * u);
  if (high.length > 0 && high.length === rested.length) {
    return [
      message('waterAboveBoil', { overK: Math.min(...high.map(({ overK }) => overK)), boilingTempC: place.tempC }),
    ];
  }
  const isBoiling = rested.length > high.length + low.length && record.target.kind === 'boil';
  return [
    ...high.map(({ channel, overK }) => message('probeAboveBoil', { channel: channel.name, overK })),
    ...(isBoiling ? low : []).map(({ channel, overK }) =>
      message('probeBelowBoil', { channel: channel.name, underK: -overK }),
    ),
  ];
}

function doubtU(record: BurnRecord, channel: Channel, { tempC, standardUncertaintyK }: PlaceBoilingPoint): number {
  const { offsetK, gain, coldJunctionK } = probeErrors(channel, coldJunctionOf(channel, record.channels));
  return Math.hypot(offsetK, gain * tempC, coldJunctionK, standardUncertaintyK);
}

function coldJunctionsOf({ channels }: BurnRecord, water: readonly Channel[]): Channel[] {
  const wanted = new Set(water.flatMap(({ coldJunctionChannelId }) => coldJunctionChannelId ?? []));
  return channels.filter(({ id, role }) => wanted.has(id) && role !== 'water');
}

const message = (code: ContradictionCode, params: Message['params']): Message => ({ code, params });
