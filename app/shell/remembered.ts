/** What a window remembers on this machine between openings. A browser that keeps nothing is no trouble: it starts afresh. */

const PREFIX = 'ohmward.';

export function remembered(name: string): string | null {
  try {
    return globalThis.localStorage.getItem(PREFIX + name);
  } catch {
    return null;
  }
}

export function remember(name: string, value: string | null): void {
  try {
    if (value === null) globalThis.localStorage.removeItem(PREFIX + name);
    else globalThis.localStorage.setItem(PREFIX + name, value);
  } catch {
    // Storage is barred or full: the choice holds until the window closes.
  }
}
