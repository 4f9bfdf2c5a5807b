import { useSignal } from '@preact/signals';
import type { ComponentChildren, VNode } from 'preact';

/** The click follows the lifting of the finger at once, on a slow phone a little later. */
const clickFollowsMs = 500;

export interface Pressed {
  readonly act: () => void;
  readonly children: ComponentChildren;
}

/**
 * A button whose action is the one shown when the finger came down: a change by another phone may give it another label
 * and action before the finger is lifted. Until then the label stays unchanged.
 */
export function HeldButton({
  act,
  children,
  earlier,
  ...rest
}: Pressed & {
  disabled?: boolean;
  class?: string;
  'data-renamed'?: boolean | undefined;
  children: ComponentChildren;
  /** The label until a moment ago, when a thumb that comes down now must have read that one. */
  earlier?: () => Pressed | undefined;
}): VNode {
  const held = useSignal<Pressed | undefined>(undefined);
  const hold = () => {
    const written = earlier?.() ?? { act, children };
    held.value = written;
    const lifted = () => {
      removeEventListener('pointerup', lifted);
      removeEventListener('pointercancel', lifted);
      setTimeout(() => {
        if (held.value === written) held.value = undefined;
      }, clickFollowsMs);
    };
    addEventListener('pointerup', lifted);
    addEventListener('pointercancel', lifted);
  };
  const click = () => {
    const written = held.value ?? earlier?.() ?? { act };
    held.value = undefined;
    written.act();
  };
  return (
    <button type="button" {...rest} onPointerDown={hold} onClick={click}>
      {held.value?.children ?? children}
    </button>
  );
}
