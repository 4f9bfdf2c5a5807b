import type { BoardProblemCode } from './problems.ts';

/**
 * Classifies the error with which the system refused or dropped a port. serialport gives no error codes, only text, and
 * the text differs from system to system; the first pattern that matches decides.
 */
export function classifyPortError(raw: string): BoardProblemCode {
  for (const [code, pattern] of PATTERNS) if (pattern.test(raw)) return code;
  return 'port-unknown';
}

// Windows reports "Access denied" for a port that another program has open (its ports have no per-user rights), so that
// text is tested before the Unix one for missing rights.
const PATTERNS: readonly (readonly [BoardProblemCode, RegExp])[] = [
  ['port-busy', /cannot lock port|resource busy|EBUSY|temporarily unavailable|opening COM\d+: access (is )?denied/i],
  ['port-busy', /access is denied/i],
  ['permission-denied', /permission denied|EACCES|operation not permitted|EPERM/i],
  ['port-missing', /no such file or directory|ENOENT|file not found|no such device|ENODEV|ENXIO/i],
];
