import type { VNode } from 'preact';
import { translate } from '../../language/catalogue.ts';
import { Choice } from '../forms/field.tsx';

const choices = ['0', '2', '5', '10', '20'] as const;
export type MinutesAgo = (typeof choices)[number];

/** How long ago the logged action was: a hand is seldom free at that moment. */
export function MinutesAgoChoice({
  value,
  onChange,
}: {
  value: MinutesAgo;
  onChange: (value: MinutesAgo) => void;
}): VNode {
  return (
    <div class="when">
      <Choice
        label={translate().feed.when}
        value={value}
        onChange={onChange}
        options={choices.map((minutes) => [minutes, minutesAgoWords(minutes)])}
      />
    </div>
  );
}

export function minutesAgoWords(minutes: string): string {
  return minutes === '0' ? translate().feed.now : translate().feed.minutesAgo({ minutes: Number(minutes) });
}
