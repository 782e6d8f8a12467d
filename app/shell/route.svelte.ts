/** A place in the app as its hash says it: `#/bench/jobs/ID?by=KEY` is area `bench`, rest `jobs`, `ID`, query `by`: `KEY`. */
export interface Route {
  readonly area: string;
  readonly rest: readonly string[];
  readonly query: Query;
}

/** What a place is shown by: names and their values. */
export type Query = Readonly<Record<string, string>>;

/** Reads a hash. Parts that are not sound percent-encoding are kept as they are. */
export function routeOf(hash: string): Route {
  const [path = '', ...asked] = hash.replace(/^#?\/?/, '').split('?');
  const [area = '', ...rest] = path.split('/').map(decoded);
  return { area, rest: rest.filter((part) => part !== ''), query: queryOf(asked.join('?')) };
}

/** The hash of a place. */
export function hashOf(area: string, ...rest: readonly string[]): string {
  return `#/${[area, ...rest].map(encodeURIComponent).join('/')}`;
}

/** The hash of a place that is shown by a query; in its order, and without what is null. */
export function withQuery(hash: string, query: Readonly<Record<string, string | null>>): string {
  const pairs = Object.entries(query).flatMap(([name, value]) =>
    value === null ? [] : [`${encodeURIComponent(name)}=${encodedValue(value)}`],
  );
  return pairs.length === 0 ? hash : `${hash}?${pairs.join('&')}`;
}

function queryOf(text: string): Query {
  const pairs = text.split('&').filter((pair) => pair !== '');
  return Object.fromEntries(
    pairs.map((pair) => {
      const [name = '', ...value] = pair.split('=');
      return [decoded(name), decoded(value.join('='))];
    }),
  );
}

/** Slashes and colons stand for themselves in a query, and are easier to read so. */
function encodedValue(value: string): string {
  return encodeURIComponent(value).replaceAll('%2F', '/').replaceAll('%3A', ':');
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

  /** Goes there in place of the place the window is at, so that going back does not lead to it. */
  replace(hash: string): void {
    window.location.replace(hash);
    this.route = routeOf(hash);
  }
}

export const place = new Place();
