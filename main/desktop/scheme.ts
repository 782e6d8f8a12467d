import { protocol } from 'electron';
import { SECURITY_HEADERS, type Page } from '../loopback/index.ts';

const SCHEME = 'ohmward-app';
const HOST = 'app';

/** Where the window finds the page. */
export const PAGE_URL = `${SCHEME}://${HOST}/`;

/** Must be called before the app is ready. The page gets an origin of its own, which nothing on the network can have. */
export function registerScheme(): void {
  protocol.registerSchemesAsPrivileged([
    { scheme: SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
  ]);
}

/** Serves the built app under the scheme, with the same headers as the loopback host. */
export function servePage(page: Page): void {
  protocol.handle(SCHEME, ({ method, url }) => {
    const file = method === 'GET' && isOurs(url) ? page.get(new URL(url).pathname) : undefined;
    if (file === undefined) return new Response('Not found', { status: 404, headers: SECURITY_HEADERS });
    return new Response(file.body, { headers: { ...SECURITY_HEADERS, 'content-type': file.type } });
  });
}

/** Whether an address is one of the page's own. */
export function isOurs(address: string): boolean {
  const url = URL.parse(address);
  return url !== null && url.protocol === `${SCHEME}:` && url.host === HOST;
}
