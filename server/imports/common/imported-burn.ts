/** Readings that came as numbers, as a burn record of their own. */
import { createHash } from 'node:crypto';
import type { BurnRecord, Channel, FaultCode } from '../../../shared/contract/burn-record.ts';
import type { Mark } from '../../../shared/contract/marks.ts';
import { derivedId } from '../../base/identifiers.ts';
import type { RecordParts } from '../../records/split-record.ts';
import { emptyColumns, statusOf } from '../../store/scan-columns.ts';

export interface ImportedChannel {
  name: string;
  role: Channel['role'];
  position?: Channel['position'];
  unit: Channel['unit'];
  probe?: Channel['probe'];
  handRead?: Channel['handRead'];
  /** One entry a scan; null where there is none. */
  values: readonly (number | null)[];
  faults: readonly (readonly [number, FaultCode])[];
  /** Digits behind the decimal separator that say all of a value. */
  decimals: number;
}

/** What the person says of a burn that is made of readings. */
export interface StatedOfBurn {
  title: string;
  /** To the boil when left out. */
  target?: BurnRecord['target'] | undefined;
  hold?: BurnRecord['hold'] | undefined;
  /** When it was lit, in seconds after the first reading. */
  litElapsedS?: number | undefined;
}

export interface ImportedReadings extends StatedOfBurn {
  /** Identifies the file and how it was read: the same twice gives the same identifiers. */
  fingerprint: string;
  elapsedS: readonly number[];
  channels: readonly ImportedChannel[];
  /** Moments are seconds since the first reading. */
  marks: readonly { elapsedS: number; mark: Pick<Mark, 'kind' | 'note'> & { massKg?: number } }[];
  startedUtcMs: number;
  origin: 'imported' | 'enteredByHand';
}

export function fingerprintOf(bytes: Uint8Array, format: unknown): string {
  return createHash('sha256').update(bytes).update(JSON.stringify(format)).digest('hex');
}

/** A burn with these readings and nothing else known; the person states the rest afterwards. */
export function importedBurn(imported: ImportedReadings): RecordParts {
  const { fingerprint, title, elapsedS, startedUtcMs, origin } = imported;
  // No moment in them: a file that does not say when it was written must get the same identifiers tomorrow.
  const id = (name: string) => derivedId(`${fingerprint} ${name}`, 0);
  const boardId = id('board');
  const columns = emptyColumns(elapsedS.length, imported.channels.length);
  elapsedS.forEach((moment, scan) => {
    // Rows closer than a microsecond do not exist, but two moments may round to one.
    const us = Math.max(Math.round(moment * 1e6), scan === 0 ? 0 : columns.elapsedUs[scan - 1]! + 1);
    columns.elapsedUs[scan] = us;
    columns.arrivedUs[scan] = us;
    columns.uptimeMs[scan] = Math.floor(us / 1000) % 2 ** 32;
    columns.sequence[scan] = scan;
  });
  const channels = imported.channels.map(({ values, faults, decimals, ...given }, index): Channel => {
    const scale = scaleFor(values, decimals);
    values.forEach((value, scan) => {
      if (value === null) return;
      columns.counts[index]![scan] = Math.round(value / scale);
      columns.status[index]![scan] = 0;
    });
    for (const [scan, fault] of faults) columns.status[index]![scan] = statusOf(fault);
    const { position, probe, handRead, ...rest } = given;
    return {
      id: id(`channel ${index}`),
      boardId,
      index,
      ...rest,
      ...(position && { position }),
      scale,
      ...(probe && { probe }),
      ...(handRead && { handRead }),
    };
  });
  const lit = imported.litElapsedS;
  const given = [...imported.marks, ...(lit === undefined ? [] : [{ elapsedS: lit, mark: { kind: 'lit' as const } }])];
  const marks = given.map(({ elapsedS: atS, mark }, index) => {
    return { id: id(`mark ${index}`), elapsedUs: Math.round(atS * 1e6), ...mark } as Mark;
  });
  return {
    record: {
      format: 'stovebench-burn-record',
      version: 1,
      id: id('burn'),
      title,
      origin,
      status: 'ended',
      methodSet: 'bench-1',
      primaryResult: 'dryWoodPerBatch',
      target: imported.target ?? { kind: 'boil' },
      ...(imported.hold && { hold: imported.hold }),
      startedUtcMs,
      clockSource: 'none',
      fuelLots: [],
      channels,
      marks,
      weighings: [],
    },
    boards: [{ boardId, columns }],
  };
}

const LARGEST_COUNT = 2 ** 31 - 1;

/** The finest decade that says every digit, as far as the counts fit into 32 bits. */
function scaleFor(values: readonly (number | null)[], decimals: number): number {
  let largest = 0;
  for (const value of values) largest = Math.max(largest, Math.abs(value ?? 0));
  let exponent = -Math.min(decimals, 9);
  while (largest / 10 ** exponent > LARGEST_COUNT) exponent++;
  return Number(`1e${exponent}`);
}
