/** The day of a burn, for every place where a burn is named. */
import { startDateMs } from '../../shared/contract/burn-date.ts';
import { translate } from './catalogue.ts';
import { day } from './figures.ts';

/** A phrase where the machine had no clock; undefined for a burn that has not begun. */
export function burnDay(burn: {
  readonly status?: string;
  readonly startedUtcMs?: number | undefined;
  readonly clockSource?: string | undefined;
  readonly zone?: string | undefined;
}): string | undefined {
  if (burn.status === 'planned') return undefined;
  const startMs = startDateMs(burn);
  return startMs === undefined ? translate().now.dateUnknown : day(startMs, burn.zone);
}
