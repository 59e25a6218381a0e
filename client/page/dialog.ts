/** A question or a text over the page; Escape closes it, and the focus goes back to where it was. */

import type { ComponentChildren } from 'preact';
import { useLayoutEffect, useRef } from 'preact/hooks';
import { html } from './html.ts';

export function Dialog({
  title,
  close,
  children,
}: {
  title: string;
  close: () => void;
  children?: ComponentChildren;
}) {
  const dialog = useRef<HTMLDialogElement>(null);
  useLayoutEffect(() => {
    const shown = dialog.current;
    shown?.showModal();
    // Long texts begin at their beginning: the first button may stand below them.
    shown?.querySelector('h2')?.focus();
    // A dialog that is taken off the page does not give the focus back by itself.
    return () => shown?.close();
  }, []);
  return html`<dialog class="sheet" ref=${dialog} aria-label=${title} onClose=${close}>
    <h2 tabindex="-1">${title}</h2>
    ${children}
    <button class="close" onClick=${close}>Close</button>
  </dialog>`;
}

/** For buttons that write into the text: it keeps the focus, and the keyboard of a phone stays as it is. */
export const KEEPS_FOCUS = {
  onPointerDown: (event: Event) => event.preventDefault(),
  onMouseDown: (event: Event) => event.preventDefault(),
};
