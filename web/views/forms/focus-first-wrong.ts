const wrongEntries = '[aria-invalid="true"], .undecided input, .choice.wrong input';

/** Takes the person to what still has to be put right, once the screen says what that is. */
export function focusFirstWrong(form: HTMLElement): void {
  requestAnimationFrame(() => {
    const first = form.querySelector<HTMLElement>(wrongEntries);
    if (first) focusEntry(first);
  });
}

function focusEntry(entry: HTMLElement): void {
  entry.focus({ preventScroll: true });
  // Clear of the bar that keeps to the bottom of the screen.
  entry.scrollIntoView({ block: 'center' });
}

export interface WrongEntry {
  /** As its label says it. */
  readonly name: string;
  focus(): void;
}

/** Everything in a form that is marked as wrong; a sheet opened from it is a form of its own. */
export function wrongIn(form: HTMLElement): WrongEntry[] {
  return [...form.querySelectorAll<HTMLElement>('.field.wrong, .choice.wrong')]
    .filter((field) => field.closest('dialog') === form.closest('dialog'))
    .flatMap((field) => {
      const entry = field.querySelector<HTMLElement>('input, select, textarea');
      const label = field.querySelector('label, legend')?.textContent ?? '';
      const of = field.closest<HTMLElement>('[data-of]')?.dataset.of;
      return entry ? [{ name: of ? `${of}: ${label}` : label, focus: () => focusEntry(entry) }] : [];
    });
}
