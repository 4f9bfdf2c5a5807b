import { remembered, units } from './preferences.ts';

/** Paper size of reports on this device; Letter where US units were chosen first. */
export const paper = remembered<'a4' | 'letter'>('paper', units.value === 'usCustomary' ? 'letter' : 'a4');
