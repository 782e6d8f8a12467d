import { tick } from 'svelte';

export const FOCUSABLE = 'input, select, textarea, button:not(:disabled)';

/**
 * Puts the focus in the form's field at a pointer into the document, or in the first field within; failing that, in the nearest
 * part above it. False where the form shows nothing of it. To be called after the part has been selected.
 */
export async function focusPlace(pointer: string): Promise<boolean> {
  await tick();
  const form = document.querySelector('[data-form]');
  const places = [...(form?.querySelectorAll<HTMLElement>('[data-place]') ?? [])];
  // The tree itself is at no pointer; its form begins with its title.
  for (const place of pointer === '' ? ['/title'] : withAncestors(pointer)) {
    const exact = places.find((one) => one.dataset.place === place);
    const within = places.find((one) => one.dataset.place?.startsWith(`${place}/`) === true);
    const target = focusableIn(exact) ?? focusableIn(within);
    if (target === null) continue;
    const folded = target.closest('details');
    if (folded !== null) folded.open = true;
    target.focus();
    target.scrollIntoView({ block: 'nearest' });
    return true;
  }
  return false;
}

/** Puts the focus on a button that moves an entry of a list, or on the other one where that cannot move it any further. */
export async function focusTool(pointer: string, tool: string): Promise<void> {
  await tick();
  const all = [...document.querySelectorAll<HTMLButtonElement>('[data-form] [data-tool]')];
  const own = all.filter((one) => one.dataset.of === pointer && !one.disabled);
  (own.find((one) => one.dataset.tool === tool) ?? own[0])?.focus();
}

/** A pointer and those of what it is in, inmost first. */
export function withAncestors(pointer: string): readonly string[] {
  const parts = pointer.split('/');
  return parts.map((_, index) => parts.slice(0, parts.length - index).join('/')).filter((one) => one !== '');
}

function focusableIn(one: HTMLElement | undefined): HTMLElement | null {
  if (one === undefined) return null;
  return one.matches(FOCUSABLE) ? one : one.querySelector<HTMLElement>(FOCUSABLE);
}
