const wrongEntries = '[aria-invalid="true"], .undecided input, .choice.wrong input';

/** Moves the focus to the first invalid field, once the screen shows what is wrong with it. */
export function focusFirstWrong(form: HTMLElement): void {
  requestAnimationFrame(() => {
    const first = form.querySelector<HTMLElement>(wrongEntries);
    if (first) focusEntry(first);
  });
}

export function focusEntry(entry: HTMLElement): void {
  entry.focus({ preventScroll: true });
  // Not hidden by the bar at the bottom of the screen.
  entry.scrollIntoView({ block: 'center' });
}
