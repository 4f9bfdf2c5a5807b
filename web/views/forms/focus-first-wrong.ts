const wrongEntries = '[aria-invalid="true"], .undecided input, .choice.wrong input';

/** Takes the person to what still has to be put right, once the screen says what that is. */
export function focusFirstWrong(form: HTMLElement): void {
  requestAnimationFrame(() => {
    const first = form.querySelector<HTMLElement>(wrongEntries);
    if (first) focusEntry(first);
  });
}

export function focusEntry(entry: HTMLElement): void {
  entry.focus({ preventScroll: true });
  // Clear of the bar that keeps to the bottom of the screen.
  entry.scrollIntoView({ block: 'center' });
}
