import { tick } from 'svelte';

/**
 * Gives an element the focus where what had it went with the page before, so that the keys and a screen reader begin at the
 * new page’s head. What still has the focus keeps it.
 */
export function focusIfLost(node: HTMLElement): void {
  void tick().then(() => {
    if (isFocusLost()) node.focus();
  });
}

/** Whether what had the focus is gone. */
export function isFocusLost(): boolean {
  return document.activeElement === null || document.activeElement === document.body;
}
