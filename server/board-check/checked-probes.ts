import type { CheckedChannel } from '../../shared/board-check/probe-scan.ts';
import { valueUnit } from '../../shared/board-check/probe-scan.ts';
import { createProbeTests } from '../../shared/board-check/probe-tests.ts';
import type { CheckedProbe, Finding, ProbeTestKind } from '../../shared/contract/board-check.ts';
import type { Channel, Place } from '../../shared/contract/burn-record.ts';
import type { BoardChannel, ScanEvent } from '../bridge/bridge.ts';
import { readingsOf } from '../readings/scan-readings.ts';
import { scanValues } from '../readings/scan-values.ts';
import { firstPlacement } from '../setup/first-placement.ts';

export interface BenchKnowledge {
  /** The channels of this board as a person placed and calibrated them before. */
  placed: readonly Channel[];
  place: Place | undefined;
}

/** The probes of a board as it describes itself, from its first complete description on. */
export type CheckedProbes = ReturnType<typeof createCheckedProbes>;

export function createCheckedProbes(described: readonly BoardChannel[], { placed, place }: BenchKnowledge) {
  /** The board need not be known to the bench: the channels only need a name in common. */
  const boardId = 'checked';
  const channels: Channel[] = described.map((channel) => ({
    ...meaningOf(channel, placed),
    id: String(channel.index),
    boardId,
    index: channel.index,
    ...(channel.form.kind === 'thermocouple-microvolts' && {
      coldJunctionChannelId: String(channel.form.coldJunction),
    }),
  }));
  const checked: CheckedChannel[] = channels.map((channel, place) => {
    const { label, resolution, scale } = described[place]!;
    return {
      label,
      channel,
      coldJunction: channels.find(({ id }) => id === channel.coldJunctionChannelId),
      ...(resolution !== null && { resolution: (resolution * channel.scale) / scale }),
    };
  });
  const tests = createProbeTests(checked, place);

  return {
    take(scan: ScanEvent): void {
      if (scan.repeated) return;
      const { values, faults } = scanValues(channels, boardId, readingsOf(scan));
      tests.take({
        atS: scan.arrivalUs / 1e6,
        readings: channels.map(({ id }, index) => ({
          count: scan.counts[index] ?? undefined,
          value: values[id],
          fault: faults[id],
        })),
      });
    },
    /** False where this channel has no such test. */
    begin: (channel: number, kind: ProbeTestKind, nowUs: number): boolean => tests.begin(channel, kind, nowUs / 1e6),
    end: (nowUs: number): void => tests.end(nowUs / 1e6),
    look(nowUs: number): { probes: CheckedProbe[]; test: ProbeTestNow | undefined; findings: readonly Finding[] } {
      const { probes, test, findings } = tests.look(nowUs / 1e6);
      return {
        probes: probes.map((probe, index) => ({
          channel: index,
          label: checked[index]!.label,
          quantity: described[index]!.quantity,
          unit: valueUnit(checked[index]!),
          ...probe,
        })),
        test,
        findings,
      };
    },
  };
}

type ProbeTestNow = { readonly channel: number; readonly kind: ProbeTestKind; readonly sinceS: number };

/** The scale of a count is the one the board sends now; the kind of the probe may have been corrected by a person. */
function meaningOf(channel: BoardChannel, placed: readonly Channel[]): Omit<Channel, 'id' | 'boardId' | 'index'> {
  const first = firstPlacement(channel);
  const before = placed.find(({ index }) => index === channel.index);
  if (!before) return first;
  const { offset: _, ...known } = before;
  const { unit, scale, offset } = first;
  return { ...known, unit, scale, ...(offset !== undefined && { offset }) };
}
