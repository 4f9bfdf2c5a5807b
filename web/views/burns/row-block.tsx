/**
 * Rows of a long list that are created when the person scrolls near them: a thousand burns at once would delay the
 * first display.
 */
import { type Signal, useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

/** Rows per block: a few screens of them are created without a noticeable delay. */
export const BLOCK_ROWS = 12;
/** The distance at which a block is created, so that fast scrolling shows no empty one. */
const NEAR = '1000px 0px';

/**
 * @param isFirst whether it is visible at once when the list opens
 * @param children the rows; called once the block is near
 */
export function RowBlock({
  rows,
  isFirst,
  children,
}: {
  rows: number;
  isFirst: boolean;
  children: () => VNode[];
}): VNode {
  const block = useRef<HTMLUListElement>(null);
  const isNear = useSignal(isFirst);
  useEffect(() => (isNear.peek() ? undefined : watchNearness(block.current!, isNear)), [isNear]);
  return (
    <ul class={isNear.value ? 'burns' : 'burns waiting'} ref={block} style={{ '--rows': rows }}>
      {isNear.value && children()}
    </ul>
  );
}

/** Becomes true when the element first comes near, or when the page is about to be printed. */
function watchNearness(element: Element, isNear: Signal<boolean>): () => void {
  const show = () => {
    isNear.value = true;
    stop();
  };
  const observer = new IntersectionObserver((entries) => entries.some((entry) => entry.isIntersecting) && show(), {
    rootMargin: NEAR,
  });
  const stop = () => {
    observer.disconnect();
    removeEventListener('beforeprint', show);
  };
  observer.observe(element);
  addEventListener('beforeprint', show);
  return stop;
}
