import { readFileSync } from 'node:fs';

/** Resident memory of a process and of those it has started, in MB; 0 once it is gone. Linux only. */
export function residentMb(processId: number): number {
  try {
    const own = /^VmRSS:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${processId}/status`, 'latin1'))?.[1] ?? '0';
    const children = readFileSync(`/proc/${processId}/task/${processId}/children`, 'latin1').trim();
    const theirs = children === '' ? [] : children.split(' ').map((id) => residentMb(Number(id)));
    return theirs.reduce((sum, mb) => sum + mb, Number(own) / 1024);
  } catch {
    return 0;
  }
}
