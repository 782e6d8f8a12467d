/** A place in the app as its hash says it: `#/bench/jobs/ID` is area `bench`, rest `jobs`, `ID`. */
export interface Route {
  readonly area: string;
  readonly rest: readonly string[];
}

/** Reads a hash. Parts that are not sound percent-encoding are kept as they are. */
export function routeOf(hash: string): Route {
  const [area = '', ...rest] = hash
    .replace(/^#?\/?/, '')
    .split('/')
    .map(decoded);
  return { area, rest: rest.filter((part) => part !== '') };
}

/** The hash of a place. */
export function hashOf(area: string, ...rest: readonly string[]): string {
  return `#/${[area, ...rest].map(encodeURIComponent).join('/')}`;
}

function decoded(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

/** Where the window is. Follows the address; {@link Place.go} changes it. */
export class Place {
  route = $state.raw<Route>(routeOf(globalThis.location?.hash ?? ''));

  /** Follows the address until the returned function is called. */
  follow(): () => void {
    const read = () => (this.route = routeOf(window.location.hash));
    window.addEventListener('hashchange', read);
    return () => window.removeEventListener('hashchange', read);
  }

  go(hash: string): void {
    window.location.hash = hash;
    this.route = routeOf(hash);
  }
}

export const place = new Place();
