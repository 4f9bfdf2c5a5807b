/** Channels and readings of a simulated burn in the form of the burn record. */
import type { FaultName } from '../../firmware-protocol/messages.ts';
import type { Channel, FaultCode, Readings } from '../../shared/contract/burn-record.ts';
import type { BurnDescription } from './burn-description.ts';
import type { ErrorBudget } from './measurement-errors.ts';
import { namedUuid } from './named-uuid.ts';
import type { SimulatedChannel } from './probes.ts';
import type { SimulatedBurn } from './simulate-burn.ts';

/** Identity of a channel of a simulated board: the same in every burn of that board. */
export function channelId(boardId: string, channel: SimulatedChannel): string {
  return namedUuid(`${boardId} ${channel.site}`, 0);
}

/** The channels of a simulated board as a record lists them. */
export function recordChannels(
  simulated: readonly SimulatedChannel[],
  description: BurnDescription,
  budget: ErrorBudget | undefined,
): Channel[] {
  const cold = simulated.find((channel) => channel.site === 'coldJunction');
  return simulated.map((channel, index) => ({
    id: channelId(description.boardId, channel),
    boardId: description.boardId,
    index,
    name: channel.label.replaceAll('_', ' '),
    role: channel.role,
    ...(channel.position ? { position: channel.position } : {}),
    unit: channel.unit,
    scale: channel.scale,
    probe: probeOf(channel),
    ...(channel.unit === 'uV' && cold ? { coldJunctionChannelId: channelId(description.boardId, cold) } : {}),
    ...(channel.role === 'water' ? trustOf(description, budget) : {}),
    ...(channel.timeConstantS > 0 ? { timeConstantS: channel.timeConstantS } : {}),
  }));
}

function probeOf(channel: SimulatedChannel): NonNullable<Channel['probe']> {
  if (channel.probe === 'thermocouple-K') return { kind: 'thermocouple', type: 'K', toleranceClass: '2' };
  if (channel.probe === 'pt100') return { kind: 'resistance', nominalOhm: 100, toleranceClass: 'B' };
  return { kind: 'other' };
}

function trustOf(description: BurnDescription, budget: ErrorBudget | undefined): Partial<Channel> {
  const gain = budget ? { gainStandardUncertainty: budget.probeGain } : {};
  if (description.waterCalibrationK === undefined) {
    return budget ? { standardUncertainty: budget.probeOffsetK, ...gain } : {};
  }
  return {
    ...gain,
    calibration: {
      version: 1,
      method: 'icePointAndBoilingPoint',
      offset: 0,
      gain: 1,
      standardUncertainty: description.waterCalibrationK,
    },
  };
}

const FAULT_CODES: Record<FaultName, FaultCode> = {
  open: 'open',
  'short-to-ground': 'shortToGround',
  'short-to-supply': 'shortToSupply',
  'out-of-range': 'outOfRange',
  'no-answer': 'noAnswer',
  other: 'unreadable',
};

/** The scans as columns, in the form of a record. */
export function recordReadings({ scenario, scans }: SimulatedBurn, boardId: string): Readings {
  return {
    boardId,
    elapsedUs: scans.elapsedS.map((elapsedS) => Math.round(elapsedS * 1e6)),
    sequence: scans.elapsedS.map((_, index) => index),
    boot: scans.elapsedS.map(() => 1),
    columns: scenario.channels.map((channel, column) => {
      const faults = scans.faults[column]!.map(([index, fault]): [number, FaultCode] => [index, FAULT_CODES[fault]]);
      return {
        channelId: channelId(boardId, channel),
        counts: scans.counts[column]!,
        ...(faults.length > 0 ? { faults } : {}),
      };
    }),
  };
}
