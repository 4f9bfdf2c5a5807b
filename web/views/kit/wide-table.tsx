import type { ComponentChildren, VNode } from 'preact';

/** A table that may be wider than the screen: it scrolls by itself, with a finger and with the keyboard. */
export function WideTable({ label, children }: { label: string; children: ComponentChildren }): VNode {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard (WCAG 2.1.1)
    <section class="scroll-x" tabIndex={0} aria-label={label}>
      {children}
    </section>
  );
}
