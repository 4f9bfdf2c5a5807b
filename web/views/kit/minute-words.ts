/** Minutes of a burn as written in sentences. */
import { minuteLabel } from '../../charts/axis-labels.ts';

/** Minutes as on the time axis, with their unit: 90 min, 2 h, 2:30. */
export function minuteText(minute: number): string {
  const label = minuteLabel(minute);
  return /[h:]/.test(label) ? label : `${label}\u00a0min`;
}
