import { SECTIONS, type SectionId } from './sections.ts';

/** How far below the window's upper edge a part counts as the one that is read, in CSS pixels. */
const READ_AT = 200;
const LAST = SECTIONS.at(-1)?.id ?? SECTIONS[0].id;

/**
 * The part of the page that is being read; the first one above all of them. At the page's end it is the one whose head is under the
 * keys, or else the last one: a short part cannot be brought to where it is read.
 */
export function sectionInView(root: HTMLElement): SectionId {
  if (isAtEnd()) return enteredSection(root) ?? LAST;
  const tops = SECTIONS.map(({ id }) => ({ id, top: sectionOf(root, id)?.getBoundingClientRect().top }));
  return tops.findLast(({ top }) => top !== undefined && top <= READ_AT)?.id ?? SECTIONS[0].id;
}

/** Brings a part into view and its head under the keys. */
export function enterSection(root: HTMLElement, id: SectionId): void {
  sectionOf(root, id)?.scrollIntoView({ block: 'start' });
  headOf(root, id)?.focus({ preventScroll: true });
}

function isAtEnd(): boolean {
  const { scrollTop, clientHeight, scrollHeight } = document.documentElement;
  return scrollTop > 0 && scrollTop + clientHeight >= scrollHeight - 1;
}

/** The part whose head is under the keys, if that is on the screen. */
function enteredSection(root: HTMLElement): SectionId | undefined {
  const top = document.activeElement?.getBoundingClientRect().top ?? -1;
  if (top < 0 || top >= document.documentElement.clientHeight) return undefined;
  return SECTIONS.find(({ id }) => headOf(root, id) === document.activeElement)?.id;
}

function headOf(root: HTMLElement, id: SectionId): HTMLElement | null {
  return sectionOf(root, id)?.querySelector('h2') ?? null;
}

function sectionOf(root: HTMLElement, id: SectionId): HTMLElement | null {
  return root.querySelector<HTMLElement>(`[data-section="${id}"]`);
}
