import { SECTIONS, type SectionId } from './sections.ts';

/** How far below the window's upper edge a part counts as the one that is read, in CSS pixels. */
const READ_AT = 200;

/** The part of the page that is being read; the first one above all of them. */
export function sectionInView(root: HTMLElement): SectionId {
  const tops = SECTIONS.map(({ id }) => ({ id, top: sectionOf(root, id)?.getBoundingClientRect().top }));
  return tops.findLast(({ top }) => top !== undefined && top <= READ_AT)?.id ?? SECTIONS[0].id;
}

/** Brings a part into view and its head under the keys. */
export function enterSection(root: HTMLElement, id: SectionId): void {
  const section = sectionOf(root, id);
  section?.scrollIntoView({ block: 'start' });
  section?.querySelector<HTMLElement>('h2')?.focus({ preventScroll: true });
}

function sectionOf(root: HTMLElement, id: SectionId): HTMLElement | null {
  return root.querySelector<HTMLElement>(`[data-section="${id}"]`);
}
