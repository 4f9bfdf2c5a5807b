/** What a burn is to reach, and for how long it is to be held there. */
import type { VNode } from 'preact';
import { translate } from '../../state/catalogue.ts';
import { unit } from '../../state/figures.ts';
import { type DraftProps, draftFields } from '../kit/draft-fields.tsx';

interface AimDraft {
  readonly targetKind: 'boil' | 'temperature';
  readonly targetTemp: string;
  readonly holdMinutes: string;
  readonly onDrop: 'pause' | 'restart';
}

export function AimFields(props: DraftProps<AimDraft>): VNode {
  const words = translate().describe;
  const { figure, choice } = draftFields(props);
  const { targetKind, holdMinutes } = props.draft;
  const isHeld = holdMinutes.trim() !== '';
  return (
    <>
      {choice('targetKind', words.target, [
        ['boil', words.boil],
        ['temperature', words.temperature],
      ])}
      {targetKind === 'temperature' && figure('targetTemp', words.targetTemp, unit('temperature'))}
      {figure('holdMinutes', words.holdMinutes, 'min', { hint: isHeld ? undefined : words.holdNone })}
      {isHeld &&
        choice('onDrop', words.onDrop, [
          ['pause', words.pause],
          ['restart', words.restart],
        ])}
    </>
  );
}
