/** Offers this device's time to a bench machine without a clock. */
import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { writing } from '../../../shared/language/language.ts';
import { translate } from '../../language/catalogue.ts';
import { language } from '../../preferences/preferences.ts';
import { askHealth, call, health } from '../../requests/service.ts';
import { sentenceFor } from '../kit/use-load.ts';

export function ClockOffer(): VNode | null {
  const words = translate().pair;
  const problem = useSignal<string | undefined>(undefined);
  if (health.value?.clockSource !== 'none') return null;
  const give = async () => {
    try {
      await call('POST /clock', { body: { utcMs: Date.now() } });
      await askHealth();
    } catch (cause) {
      problem.value = sentenceFor(cause);
    }
  };
  const time = new Intl.DateTimeFormat(writing[language.value].locale, {
    dateStyle: 'full',
    timeStyle: 'short',
  }).format(new Date());
  return (
    <p class="banner">
      <span>{problem.value ?? words.noClock({ time })}</span>
      <button type="button" onClick={() => void give()}>
        {words.giveClock}
      </button>
    </p>
  );
}
