/** Text for a screen reader and a short note on the screen, e.g. after a mark was logged. */
import { signal } from '@preact/signals';

export const notice = signal<string>('');
let clearing: ReturnType<typeof setTimeout> | undefined;

/** Announce a text once, politely; the note disappears by itself. */
export function announce(words: string): void {
  notice.value = words;
  clearTimeout(clearing);
  clearing = setTimeout(() => {
    notice.value = '';
  }, 6000);
}
