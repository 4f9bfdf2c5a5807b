/** The fields for the target of a burn and the time for which it is to be held. */
import type { Burn } from '../../../shared/contract/burns.ts';
import { translate } from '../../language/catalogue.ts';
import { askedIf, choice, type DraftOf, figure, needed, quantity, type ValuesOf } from '../forms/field-spec.ts';

export function aimFields({ targetKind, holdS }: { targetKind: string; holdS: string }) {
  const words = translate().describe;
  const isHeld = holdS.trim() !== '';
  return {
    targetKind: choice({ label: words.target }, [
      ['boil', words.boil],
      ['temperature', words.temperature],
    ]),
    targetTempC: askedIf(
      targetKind === 'temperature',
      needed(quantity('temperature', { label: words.targetTemp, low: 20, high: 300, decimals: 1 })),
    ),
    holdS: figure({
      label: words.holdMinutes,
      hint: isHeld ? undefined : words.holdNone,
      unit: 'min',
      factor: 60,
      positive: true,
      high: 1440,
    }),
    onDrop: askedIf(
      isHeld,
      choice<'pause' | 'restart'>({ label: words.onDrop }, [
        ['pause', words.pause],
        ['restart', words.restart],
      ]),
    ),
  };
}

type AimFields = ReturnType<typeof aimFields>;
export const aimKeys = ['targetKind', 'targetTempC', 'holdS', 'onDrop'] as const;
export type AimDraft = DraftOf<AimFields>;
export const usualAim: AimDraft = { targetKind: 'boil', targetTempC: '', holdS: '', onDrop: 'pause' };

/** In the form of the record. */
export function aimOf({ targetTempC, holdS, onDrop }: ValuesOf<AimFields>): Pick<Burn, 'target' | 'hold'> {
  return {
    target: targetTempC === undefined ? { kind: 'boil' } : { kind: 'temperature', tempC: targetTempC },
    ...(holdS !== undefined && { hold: { durationS: holdS, onDrop: onDrop ?? 'pause' } }),
  };
}
