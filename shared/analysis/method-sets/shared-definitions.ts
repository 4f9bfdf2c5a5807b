/** Results that every method set defines alike. */
import { bench1 } from './bench-1.ts';
import type { Definition } from './definition.ts';

const common = ['localBoilingPoint', 'timeToTarget', 'timeToBoil', 'evaporatedWater'] as const;

export function commonDefinition(id: (typeof common)[number]): Definition {
  return bench1.definitions.find((definition) => definition.id === id)!;
}
