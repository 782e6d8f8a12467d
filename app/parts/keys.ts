/** Is the key going into something that takes text or has keys of its own (a field, a list box, a dialog's radio)? */
export function typingIn(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  return target.isContentEditable || target.matches('input, textarea, select');
}

/** The key as the screens name it: `Ctrl+z`, `Shift+?` is just `?`, letters in lower case. Cmd counts as Ctrl. */
export function keyOf(event: KeyboardEvent): string {
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  const ctrl = event.ctrlKey || event.metaKey ? 'Ctrl+' : '';
  const shift = event.shiftKey && (ctrl !== '' || event.key.length > 1) ? 'Shift+' : '';
  return `${ctrl}${event.altKey ? 'Alt+' : ''}${shift}${key}`;
}
