/** What opened the jobs behind a figure, to be found again where the page has been made anew: its words, and which of those it is. */
interface Opener {
  readonly words: string;
  readonly nth: number;
}

const FOCUSABLE = 'button, a, [data-point]';
/** What the browser keeps of the dialog's place in its history, through a look at a job and a reload. */
const KEPT = 'reviewJobsOpener';

/** What has the focus on the page, about to open a dialog; null where nothing on the page has. */
export function openerIn(root: HTMLElement): Opener | null {
  const element = document.activeElement;
  if (element === null || !element.matches(FOCUSABLE) || !root.contains(element)) return null;
  const words = wordsOf(element);
  return { words, nth: called(root, words).indexOf(element) };
}

/** Says of the window's place that it was opened from the page that is before it in the history. */
export function markOpened(opener: Opener | null): void {
  window.history.replaceState({ [KEPT]: opener ?? { words: '', nth: 0 } }, '');
}

/** Whether going back from the window's place leads to the page that it was opened from. */
export function isOpenedHere(): boolean {
  return keptOpener() !== null;
}

/** What opened the dialog at the window's place, as far as that is known. */
export function keptOpener(): Opener | null {
  const state: unknown = window.history.state;
  const kept: unknown = isRecord(state) ? state[KEPT] : null;
  if (!isRecord(kept)) return null;
  const { words, nth } = kept;
  return typeof words === 'string' && typeof nth === 'number' ? { words, nth } : null;
}

/** Puts the focus on what opened the dialog if it is there, else on the page's heading. */
export function focusOpener(root: HTMLElement, opener: Opener | null): void {
  const found = opener === null ? undefined : called(root, opener.words)[opener.nth];
  if (found instanceof HTMLElement || found instanceof SVGElement) found.focus();
  else root.querySelector<HTMLElement>('h1')?.focus();
}

function called(root: HTMLElement, words: string): readonly Element[] {
  return [...root.querySelectorAll(FOCUSABLE)].filter((element) => wordsOf(element) === words);
}

function wordsOf(element: Element): string {
  return element.getAttribute('aria-label') ?? element.textContent.trim();
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}
