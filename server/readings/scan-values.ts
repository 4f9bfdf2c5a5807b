import { channelCurves } from '../../shared/analysis/curves/channel-curve.ts';
import type { BurnRecord, Channel, FaultCode } from '../../shared/contract/burn-record.ts';

export interface ScanValues {
  /** Calibrated, by channel id: °C for every temperature, else the unit of the channel. */
  values: Record<string, number>;
  faults: Record<string, FaultCode>;
}

/**
 * The values of one scan, computed by the same code as in the analysis.
 * @param readings in the order of the board's channels
 */
export function scanValues(
  channels: readonly Channel[],
  boardId: string,
  readings: readonly (number | FaultCode | null)[],
): ScanValues {
  const columns = channels
    .filter((channel) => channel.boardId === boardId && channel.index !== undefined)
    .map((channel) => {
      const reading = readings[channel.index!] ?? null;
      const fault = typeof reading === 'string' ? [[0, reading] as [number, FaultCode]] : undefined;
      return {
        channelId: channel.id,
        counts: [typeof reading === 'number' ? reading : null],
        ...(fault && { faults: fault }),
      };
    });
  const record = { channels, readings: [{ boardId, elapsedUs: [0], columns }] } as unknown as BurnRecord;
  const result: ScanValues = { values: {}, faults: {} };
  for (const { channel, value, faults } of channelCurves(record)) {
    const fault = faults[0]?.[1];
    if (fault) result.faults[channel.id] = fault;
    else if (Number.isFinite(value[0]!)) result.values[channel.id] = value[0]!;
  }
  return result;
}

/** Mean of the water probes that have a value in this scan. */
export function waterOf(channels: readonly Channel[], { values }: ScanValues): number | undefined {
  const water = channels.flatMap(({ id, role }) => (role === 'water' ? (values[id] ?? []) : []));
  return water.length === 0 ? undefined : water.reduce((sum, value) => sum + value, 0) / water.length;
}
