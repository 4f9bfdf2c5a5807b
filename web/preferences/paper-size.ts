import { remembered, units } from './preferences.ts';

/** Sheets that reports are made for on this device; Letter where US units were chosen first. */
export const paper = remembered<'a4' | 'letter'>('paper', units.value === 'usCustomary' ? 'letter' : 'a4');
