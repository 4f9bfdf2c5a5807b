/** Results that every method set defines alike. */

import type { Definition } from '../engine/definition.ts';
import { bench1 } from './bench-1.ts';

const common = ['localBoilingPoint', 'timeToTarget', 'timeToBoil', 'evaporatedWater'] as const;

export function commonDefinition(id: (typeof common)[number]): Definition {
  return bench1.definitions.find((definition) => definition.id === id)!;
}
