import type { VNode } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { writing } from '../../../shared/language/language.ts';
import { translate } from '../../language/catalogue.ts';
import { language } from '../../preferences/preferences.ts';

/** Length of the longest reading of a scale: 12.345 */
const longest = 6;

/** Large keys for a gloved thumb. The text is what a person would type, with the decimal mark of the language. */
export function Keypad({ value, onInput }: { value: string; onInput: (value: string) => void }): VNode {
  const separator = writing[language.value].decimalMark;
  const press = (key: string) => {
    if (key === separator && /[.,]/.test(value)) return;
    if (value.length < longest) onInput(key === separator && value === '' ? `0${separator}` : value + key);
  };
  const typed = useRef(press);
  typed.current = press;
  const erase = useRef(() => {});
  erase.current = () => onInput(value.slice(0, -1));
  // On a laptop the digits are typed.
  useEffect(() => {
    const type = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || isEntry(event.target)) return;
      if (/^[0-9]$/.test(event.key)) typed.current(event.key);
      else if (event.key === '.' || event.key === ',') typed.current(separator);
      else if (event.key === 'Backspace') erase.current();
    };
    document.addEventListener('keydown', type);
    return () => document.removeEventListener('keydown', type);
  }, [separator]);
  return (
    <div class="keypad">
      {['1', '2', '3', '4', '5', '6', '7', '8', '9'].map((key) => (
        <button type="button" key={key} onClick={() => press(key)}>
          {key}
        </button>
      ))}
      <button type="button" aria-label={translate().feed.key.separator} onClick={() => press(separator)}>
        {separator}
      </button>
      <button type="button" onClick={() => press('0')}>
        0
      </button>
      <button type="button" class="key-delete" aria-label={translate().feed.key.delete} onClick={() => erase.current()}>
        <svg viewBox="0 0 24 16" width="30" height="20" aria-hidden="true">
          <path d="M8 1h15v14H8L1 8zM12 5l6 6m0-6-6 6" fill="none" stroke="currentColor" stroke-width="1.75" />
        </svg>
      </button>
    </div>
  );
}

function isEntry(target: EventTarget | null): boolean {
  return target instanceof Element && target.matches('input:not([type="radio"]), select, textarea');
}
