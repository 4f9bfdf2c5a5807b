import type { ComponentChildren, VNode } from 'preact';
import { useEffect, useId, useRef } from 'preact/hooks';
import { translate } from '../../language/catalogue.ts';
import { AlarmsElsewhere } from '../kit/alarms.tsx';

/** A sheet that slides over the lower part of the screen: a modal dialog with its own focus, closed by Escape or its button. */
export function Sheet({
  title,
  onClose,
  fits = false,
  children,
}: {
  title: string;
  onClose: () => void;
  /** Never taller than the screen: its content decides which part of it scrolls. */
  fits?: boolean;
  children: ComponentChildren;
}): VNode {
  const dialog = useRef<HTMLDialogElement>(null);
  const heading = useId();
  useEffect(() => {
    const element = dialog.current;
    if (element && !element.open) element.showModal();
    return () => element?.close();
  }, []);
  return (
    <dialog class={fits ? 'sheet fits' : 'sheet'} ref={dialog} onClose={onClose} aria-labelledby={heading}>
      <header class="sheet-head">
        <h2 id={heading}>{title}</h2>
        <button type="button" class="plain" onClick={onClose}>
          {translate().close}
        </button>
        <AlarmsElsewhere />
      </header>
      <div class="sheet-body">{children}</div>
    </dialog>
  );
}
