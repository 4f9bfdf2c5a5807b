import { useSignal } from '@preact/signals';
import type { ComponentChildren, VNode } from 'preact';

/** The click follows the lifting of the finger at once, on a slow phone a little later. */
const clickFollowsMs = 500;

export interface Pressed {
  readonly act: () => void;
  readonly children: ComponentChildren;
}

/**
 * A button that does what it said when the finger came down: what another phone does meanwhile may give it another name and
 * another use before the finger is lifted. Until then the name stays as it was.
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
  /** What it said until a moment ago, when that is what a thumb which comes down now has read. */
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
