/** Takes the person to what still has to be put right, once the screen says what that is. */
export function focusFirstWrong(form: HTMLFormElement): void {
  requestAnimationFrame(() => {
    const first = form.querySelector<HTMLElement>('[aria-invalid="true"], .undecided input');
    first?.focus({ preventScroll: true });
    // Clear of the bar that keeps to the bottom of the screen.
    first?.scrollIntoView({ block: 'center' });
  });
}
