import { tick, untrack } from 'svelte';
import type { Attachment } from 'svelte/attachments';
import { isFocusLost } from '../../parts/index.ts';

/**
 * Where the focus goes after a mend in the checks, whose line goes with its problem once they have caught up with the document:
 * to the line that has come into its place, or to the last one; to what the checks say as a whole where no problem is left.
 */
export function afterMend(isBehind: () => boolean): Attachment<HTMLElement> {
  return (root) => {
    let place: number | null = null;
    const lines = (): readonly HTMLElement[] => [
      ...root.querySelectorAll<HTMLElement>('[aria-label="Checks"] li'),
    ];
    const pressed = ({ target }: MouseEvent): void => {
      const button = target instanceof Element ? target.closest('.mend button') : null;
      const at = lines().findIndex((line) => button !== null && line.contains(button));
      if (at >= 0) place = at;
    };
    $effect(() => {
      if (!isBehind()) untrack(() => void goOn());
    });
    async function goOn(): Promise<void> {
      await tick();
      if (place === null || !isFocusLost()) return;
      const all = lines();
      focusOn(all[Math.min(place, all.length - 1)] ?? null, root);
      place = null;
    }
    root.addEventListener('click', pressed, { capture: true });
    return () => root.removeEventListener('click', pressed, { capture: true });
  };
}

function focusOn(line: HTMLElement | null, root: HTMLElement): void {
  const next = line?.querySelector<HTMLElement>('.mend button') ?? line?.querySelector<HTMLElement>('button');
  const sum = root.querySelector<HTMLElement>('[aria-label="Checks"] [role="status"]');
  if (next === undefined || next === null) sum?.setAttribute('tabindex', '-1');
  (next ?? sum)?.focus();
}
