import type { Locator, Page } from 'playwright-core';
import { gutterPx } from '../../web/charts/time-chart-model.ts';

/** The time chart of a burn for tests: pixels of minutes, and touches as a phone reports them. */
export interface TimeChartHand {
  readonly slider: Locator;
  /** Minutes at the left and right edge. */
  range(): Promise<[number, number]>;
  /**
   * Returns the position of a minute in the window, at a height below the top of the time chart (from its bottom when
   * negative).
   */
  at(minute: number, height: number): Promise<{ x: number; y: number }>;
  /** One or two fingers put down, moved together and lifted. */
  touch(...paths: (readonly { x: number; y: number }[])[]): Promise<void>;
}

export async function timeChartHand(page: Page): Promise<TimeChartHand> {
  const slider = page.getByRole('slider');
  await slider.waitFor();
  const range = async (): Promise<[number, number]> => [
    Number(await slider.getAttribute('aria-valuemin')),
    Number(await slider.getAttribute('aria-valuemax')),
  ];
  return {
    slider,
    range,
    async at(minute, height) {
      const box = await slider.boundingBox();
      if (!box) throw new Error('the strip is not on the screen');
      const [from, to] = await range();
      const y = height < 0 ? box.y + box.height + height : box.y + height;
      return { x: box.x + gutterPx + ((minute - from) / (to - from)) * (box.width - gutterPx), y };
    },
    async touch(...paths) {
      const session = await page.context().newCDPSession(page);
      const points = (step: number) =>
        paths.flatMap((path, id) => {
          const point = path[Math.min(step, path.length - 1)];
          return point ? [{ ...point, id }] : [];
        });
      const steps = Math.max(...paths.map((path) => path.length));
      // A second finger never touches at the same moment as the first.
      for (let finger = 1; finger <= paths.length; finger += 1)
        await session.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: points(0).slice(0, finger) });
      for (let step = 1; step < steps; step += 1)
        await session.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: points(step) });
      await session.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
      await session.detach();
    },
  };
}

/** Resolves when the page no longer scrolls by itself, as it does for a while after a swipe. */
export async function atRest(page: Page): Promise<void> {
  await page.waitForFunction(
    () =>
      new Promise((resolve) => {
        const before = scrollY;
        let frames = 5;
        const look = () => {
          frames -= 1;
          if (frames > 0) requestAnimationFrame(look);
          else resolve(scrollY === before);
        };
        requestAnimationFrame(look);
      }),
  );
}

/** Counts the pixels of the chart that have an ink of the style sheet. */
export function inkPixels(page: Page, ink: string): Promise<number> {
  return page.locator('.strip-box canvas').evaluate((canvas, name) => {
    const hex = getComputedStyle(canvas).getPropertyValue(`--${name}`).trim();
    const wanted = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
    const { width, height } = canvas as HTMLCanvasElement;
    const { data } = ((canvas as HTMLCanvasElement).getContext('2d') as CanvasRenderingContext2D).getImageData(
      0,
      0,
      width,
      height,
    );
    let count = 0;
    for (let at = 0; at < data.length; at += 4)
      if (wanted.every((part, index) => data[at + index] === part)) count += 1;
    return count;
  }, ink);
}
