/**
 * A folded section whose content is created when it is opened, since the folded content of a screen is many times what
 * it shows.
 */
import { useSignal } from '@preact/signals';
import type { ComponentChildren, VNode } from 'preact';

export function Folded({
  class: name,
  summary,
  children,
}: {
  class: string;
  summary: ComponentChildren;
  children: () => ComponentChildren;
}): VNode {
  const isOpen = useSignal(false);
  return (
    <details
      class={name}
      onToggle={(event) => {
        isOpen.value = event.currentTarget.open;
      }}
    >
      <summary>{summary}</summary>
      {isOpen.value && children()}
    </details>
  );
}
