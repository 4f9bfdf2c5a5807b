/** Rows of a long list that are made when somebody comes near them: a thousand burns at once would hold up the first sight. */
import { type Signal, useSignal } from '@preact/signals';
import type { VNode } from 'preact';
import { useEffect, useRef } from 'preact/hooks';

/** Rows of one block: a few screens of them are made in one go without being felt. */
export const BLOCK_ROWS = 12;
/** How near a block has to come, so that fast scrolling meets no empty one. */
const NEAR = '1000px 0px';

/**
 * @param isFirst whether it is seen at once, when the list opens
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

/** True from the first time that the element comes near, or when the page is about to be printed. */
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
