/** Minutes of a burn as they stand on its time axis and in sentences. */

/** Minutes up to two hours, then hours: 90, 2 h, 2:30. */
export function minuteLabel(minute: number): string {
  if (Math.abs(minute) < 120) return String(minute).replace('-', '−');
  const hours = Math.floor(minute / 60);
  const rest = minute % 60;
  return rest === 0 ? `${hours}\u00a0h` : `${hours}:${String(rest).padStart(2, '0')}`;
}

/** The same with its unit: 90 min, 2 h, 2:30. */
export function minuteText(minute: number): string {
  const label = minuteLabel(minute);
  return /[h:]/.test(label) ? label : `${label}\u00a0min`;
}
