import type { FaultName, ScanMessage } from '../../firmware-protocol/lines.ts';
import type { FaultCode } from '../../shared/contract/burn-record.ts';
import type { ReceivedScan } from './board-log.ts';

const FAULT_CODES: Record<FaultName, FaultCode> = {
  open: 'open',
  'short-to-ground': 'shortToGround',
  'short-to-supply': 'shortToSupply',
  'out-of-range': 'outOfRange',
  'no-answer': 'noAnswer',
  other: 'unreadable',
};

/** Converts a scan line to the type of the service. */
export function receivedScan(message: ScanMessage, arrivalUs: number): ReceivedScan {
  return {
    boot: message.boot,
    sequence: message.sequence,
    uptimeMs: message.uptimeMs,
    repeated: message.repeated,
    body: `${message.uptimeMs} ${message.readings.join(' ')}`,
    arrivalUs,
    counts: message.readings.map((reading) => (typeof reading === 'number' ? reading : null)),
    faults: message.readings.map((reading) => (typeof reading === 'number' ? null : FAULT_CODES[reading])),
  };
}
