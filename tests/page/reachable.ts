import type { Locator } from 'playwright-core';

/** Selector of all that a person can touch. */
const targets = 'button, a[href], summary, select, textarea, input';

/**
 * Waits until fonts are loaded and the page has reacted to a rotation of the screen: one frame for that, and one to
 * draw.
 */
function drawn(): Promise<unknown> {
  const frame = () => new Promise((done) => requestAnimationFrame(done));
  return document.fonts.ready.then(frame).then(frame);
}

/**
 * Returns the names of targets that a tap on their centre would miss, because they are covered or cut off.
 * @param scrolls whether each may be scrolled into view first
 */
export async function missed(scope: Locator, scrolls: boolean): Promise<string[]> {
  await scope.page().evaluate(drawn);
  return scope.evaluate(
    (root, { targets: wanted, scrolls: mayScroll }) =>
      [...root.querySelectorAll<HTMLElement>(wanted)].flatMap((target) => {
        // A choice is represented by its label.
        const seen = target.closest('.choice-row label') ?? target;
        if (!seen.checkVisibility()) return [];
        if (mayScroll) seen.scrollIntoView({ block: 'nearest', inline: 'nearest' });
        const { left, top, width, height } = seen.getBoundingClientRect();
        const hit = document.elementFromPoint(left + width / 2, top + height / 2);
        return hit && seen.contains(hit) ? [] : [(target.ariaLabel || seen.textContent || target.tagName).trim()];
      }),
    { targets, scrolls },
  );
}
