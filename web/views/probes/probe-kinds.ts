/** Kinds of temperature probes as listed in the form, and the tolerance classes of each. Pure. */
import type { Probe } from '../../../shared/contract/burn-record.ts';

const thermocouples = ['K', 'J', 'T', 'N', 'E', 'S', 'R', 'B'] as const;
type ThermocoupleType = (typeof thermocouples)[number];

export const probeChoices = ['', ...thermocouples, 'Pt100', 'Pt1000', 'thermistor', 'dial', 'other'] as const;
export type ProbeChoice = (typeof probeChoices)[number];

/** IEC 60584 for thermocouples, IEC 60751 for resistance probes. */
export function classesOf(choice: ProbeChoice): readonly string[] {
  if (isThermocouple(choice)) return ['1', '2', '3'];
  return choice === 'Pt100' || choice === 'Pt1000' ? ['AA', 'A', 'B', 'C'] : [];
}

export function isThermocouple(choice: ProbeChoice): choice is ThermocoupleType {
  return (thermocouples as readonly string[]).includes(choice);
}

/** A probe as the two choices of the form. */
export function choiceOf(probe: Probe | undefined): { choice: ProbeChoice; toleranceClass: string } {
  if (!probe) return { choice: '', toleranceClass: '' };
  switch (probe.kind) {
    case 'thermocouple':
      return { choice: probe.type, toleranceClass: probe.toleranceClass ?? '' };
    case 'resistance':
      return { choice: probe.nominalOhm >= 1000 ? 'Pt1000' : 'Pt100', toleranceClass: probe.toleranceClass ?? '' };
    default:
      return { choice: probe.kind, toleranceClass: '' };
  }
}

/**
 * The probe that the two choices describe. Properties without a field (coefficients of a thermistor) are kept
 * unchanged.
 */
export function probeFrom(choice: ProbeChoice, toleranceClass: string, before: Probe | undefined): Probe | undefined {
  if (choice === '') return undefined;
  const grade = classesOf(choice).includes(toleranceClass) ? { toleranceClass } : {};
  if (isThermocouple(choice)) return { kind: 'thermocouple', type: choice, ...grade } as Probe;
  if (choice === 'Pt100' || choice === 'Pt1000')
    return { kind: 'resistance', nominalOhm: choice === 'Pt100' ? 100 : 1000, ...grade } as Probe;
  return before?.kind === choice ? before : { kind: choice };
}
