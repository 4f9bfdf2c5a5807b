import { readFileSync } from 'node:fs';

/** Resident memory of a process and of those it has started, in MB; 0 once it is gone. Linux only. */
export function residentMb(processId: number): number {
  try {
    const own = /^VmRSS:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${processId}/status`, 'latin1'))?.[1] ?? '0';
    return childrenOf(processId).reduce((sum, id) => sum + residentMb(id), Number(own) / 1024);
  } catch {
    return 0;
  }
}

/** Processes that the main thread of a process has started and that have not ended. Linux only. */
export function childrenOf(processId: number): number[] {
  const children = readFileSync(`/proc/${processId}/task/${processId}/children`, 'latin1').trim();
  return children === '' ? [] : children.split(' ').map(Number);
}

/** The command of a process and its arguments; empty once it has ended. Linux only. */
export function commandOf(processId: number): string {
  try {
    return readFileSync(`/proc/${processId}/cmdline`, 'latin1').replaceAll('\0', ' ');
  } catch {
    return '';
  }
}
