import { readFileSync } from 'node:fs';

/** Resident memory of another process as the system tells it; undefined where it does not, or the process has ended. */
export function residentBytes(processId: number): number | undefined {
  try {
    const [, kilobytes] = /^VmRSS:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${processId}/status`, 'latin1')) ?? [];
    return kilobytes === undefined ? undefined : Number(kilobytes) * 1024;
  } catch {
    return undefined;
  }
}
