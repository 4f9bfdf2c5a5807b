import { useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import type { UnitSystem } from '../../shared/language/display-units.ts';
import { type Language, languages, writing } from '../../shared/language/language.ts';
import { loadLanguage, translate, translateSettings } from '../language/catalogue.ts';
import { language, person, sound, type Theme, theme, units } from '../preferences/preferences.ts';
import { health } from '../requests/service.ts';
import { isInstalled, shellWasRefused } from '../state/offline-page.ts';
import { BackUp } from './back-up.tsx';
import { Choice, TextField } from './forms/field.tsx';
import { Publish } from './publish.tsx';
import { TryOut } from './try-out/try-out.tsx';

/** Choices of this device; nothing here is sent anywhere. */
export function Settings(): VNode {
  const words = translateSettings();
  // The choice is shown at once; its sentences may load later, or fail to load.
  const chosen = useSignal(language.value);
  return (
    <div class="page narrow">
      <h1>{words.title}</h1>
      <Choice<Language>
        label={words.language}
        value={chosen.value}
        options={languages.map((each) => [each, writing[each].name] as const)}
        onChange={(next) => {
          chosen.value = next;
          void loadLanguage(next).then(
            (isShown) => {
              if (isShown) language.value = next;
            },
            () => {
              if (chosen.peek() === next) chosen.value = language.peek();
            },
          );
        }}
      />
      <Choice<Theme>
        label={words.theme}
        value={theme.value}
        options={[
          ['system', words.themes.system],
          ['day', words.themes.day],
          ['night', words.themes.night],
        ]}
        onChange={(next) => {
          theme.value = next;
        }}
      />
      <Choice<UnitSystem>
        label={words.units}
        value={units.value}
        options={[
          ['si', words.unitNames.si],
          ['usCustomary', words.unitNames.usCustomary],
        ]}
        onChange={(next) => {
          units.value = next;
        }}
      />
      <Choice<'on' | 'off'>
        label={words.sound}
        hint={words.soundHelp}
        value={sound.value}
        options={[
          ['on', words.on],
          ['off', words.off],
        ]}
        onChange={(next) => {
          sound.value = next;
        }}
      />
      <TextField
        label={words.person}
        hint={words.personHelp}
        value={person.value}
        onInput={(next) => {
          person.value = next;
        }}
      />
      <OnThisDevice />
      <TryOut />
      <BackUp />
      <Publish />
      <p>
        <a href="#/phones">{translate().pair.link}</a>
      </p>
      <p>
        <a href="#/cautions">{translate().cautions.read}</a>
      </p>
      {health.value && <p class="quiet">{words.about({ version: health.value.version })}</p>}
    </div>
  );
}

/** Whether this page would open without the service, and why not. */
function OnThisDevice(): VNode | null {
  const words = translateSettings();
  if (!isSecureContext) return <p class="quiet">{words.plain}</p>;
  if (shellWasRefused.value) return <p class="quiet">{words.refused}</p>;
  return isInstalled.value ? <p class="quiet">{words.stored}</p> : null;
}
