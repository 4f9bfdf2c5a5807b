import type { Locator } from 'playwright-core';

/** What a person can touch. */
const targets = 'button, a[href], summary, select, textarea, input';

/** The page as it looks once its letters have come and it has answered to a turn of the screen: a frame for that, and one to draw it. */
function drawn(): Promise<unknown> {
  const frame = () => new Promise((done) => requestAnimationFrame(done));
  return document.fonts.ready.then(frame).then(frame);
}

/**
 * What a finger on its centre would miss, because something lies over it or it is cut off, by name.
 * @param scrolls whether each may be scrolled into sight first
 */
export async function missed(scope: Locator, scrolls: boolean): Promise<string[]> {
  await scope.page().evaluate(drawn);
  return scope.evaluate(
    (root, { targets: wanted, scrolls: mayScroll }) =>
      [...root.querySelectorAll<HTMLElement>(wanted)].flatMap((target) => {
        // A choice is drawn by the words of its label.
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
