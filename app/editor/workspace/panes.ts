/** The panes of the workspace in the order that F6 goes through them, each marked in the page by `data-pane`. */
const PANES = ['outline', 'middle', 'form', 'checks'] as const;

export type Pane = (typeof PANES)[number];

/** What takes the focus in a pane: what its keys are for, failing that the first thing that can. */
const FIRST = [
  '[role="tree"], [role="grid"], [data-spot][tabindex="0"], [data-first]',
  'input, textarea, select, button, [tabindex="0"]',
] as const;

/** Moves the focus to the next pane, or the one before. */
export function nextPane(root: HTMLElement, back: boolean): void {
  const at = PANES.findIndex((pane) => paneOf(root, pane)?.contains(document.activeElement) === true);
  for (let turn = 1; turn <= PANES.length; turn += 1) {
    const pane = PANES[(at + (back ? -turn : turn) + 2 * PANES.length) % PANES.length];
    if (pane !== undefined && enterPane(root, pane)) return;
  }
}

/** Moves the focus into a pane; false where there is nothing in it to take it. */
export function enterPane(root: HTMLElement, pane: Pane): boolean {
  const found = FIRST.flatMap((first) => [
    ...(paneOf(root, pane)?.querySelectorAll<HTMLElement>(first) ?? []),
  ]);
  const first = found.find(
    (element) => !element.matches(':disabled, [tabindex="-1"]') && element.offsetParent !== null,
  );
  first?.focus();
  return first !== undefined;
}

/**
 * Gives the drawing the keys, where the middle pane shows it: they go on to what is chosen in it as soon as that is laid out,
 * which {@link enterPane} would not find yet.
 */
export function enterDrawing(root: HTMLElement): boolean {
  const drawing = paneOf(root, 'middle')?.querySelector<HTMLElement>('[data-drawing]') ?? null;
  drawing?.focus({ preventScroll: true });
  return drawing !== null;
}

/** The pane that something in the page is in. */
export function paneWith(target: EventTarget | null): Pane | undefined {
  const pane =
    target instanceof Element ? target.closest<HTMLElement>('[data-pane]')?.dataset.pane : undefined;
  return PANES.find((one) => one === pane);
}

function paneOf(root: HTMLElement, pane: Pane): HTMLElement | null {
  return root.querySelector<HTMLElement>(`[data-pane="${pane}"]`);
}
