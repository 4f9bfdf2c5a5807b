import type { ProbeTestKind } from '../contract/board-check.ts';
import type { Channel } from '../contract/burn-record.ts';

/**
 * Returns the tests that a person can do on a channel: a hand warms a temperature probe and presses on a scale; ice and
 * boiling water are for probes that fit into a pot. A cold junction is soldered down.
 */
export function offeredTests({ unit, role }: Pick<Channel, 'unit' | 'role'>): readonly ProbeTestKind[] {
  if (role === 'coldJunction') return ['hand'];
  if (unit === 'Cel' || unit === 'uV' || unit === 'Ohm') return ['hand', 'fault', 'ice', 'boil'];
  return unit === 'kg' ? ['hand', 'fault'] : ['fault'];
}
