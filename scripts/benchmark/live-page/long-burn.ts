import { toBurnRecord } from '../../../server/simulator/burn-record.ts';
import { heronBurns } from '../../../server/simulator/heron.ts';
import { simulateBurn } from '../../../server/simulator/simulate-burn.ts';
import type { BurnRecord, Channel } from '../../../shared/contract/burn-record.ts';

/** So that every one of the eight channels is drawn: the page draws a mean of water probes and no cold junction. */
const OTHER_PLACES: Readonly<Record<string, Pick<Channel, 'name' | 'role'>>> = {
  'water high': { name: 'core', role: 'contentCore' },
  'cold junction': { name: 'shed', role: 'ambient' },
};

/** A simulated burn at 1 Hz with eight channels, held at the boil until it has lasted `hours`. */
export function longBurn(hours: number): BurnRecord {
  const { scenario, seed, errors, description } = heronBurns()[4]!;
  const holdS = hours * 3600;
  const burn = simulateBurn(
    {
      ...scenario,
      load: { ...scenario.load, waterKg: 40 },
      plan: { ...scenario.plan, holdS, giveUpAfterS: holdS, spareWoodKg: 60 },
      channels: scenario.channels.map((channel) =>
        channel.unit === 'uV' ? { ...channel, unit: 'Cel', scale: 0.25 } : channel,
      ),
      timing: { ...scenario.timing, readingEveryS: 1 },
    },
    seed,
    errors,
  );
  const record = toBurnRecord(burn, description);
  return { ...record, channels: record.channels.map((channel) => ({ ...channel, ...OTHER_PLACES[channel.name] })) };
}

/** The burn as it stood when `scans` of its scans had come. */
export function afterScans(record: BurnRecord, scans: number): BurnRecord {
  const readings = record.readings.map((board) => ({
    ...board,
    elapsedUs: board.elapsedUs.slice(0, scans),
    columns: board.columns.map((column) => ({ ...column, counts: column.counts.slice(0, scans) })),
  }));
  const nowUs = readings[0]!.elapsedUs.at(-1) ?? 0;
  return { ...record, readings, marks: record.marks.filter(({ elapsedUs }) => elapsedUs <= nowUs) };
}
