import type { IncomingHttpHeaders } from 'node:http';

/** What is looked at before a request is answered at all. */
export interface Knock {
  readonly method: string;
  /** Path without the query, as it was sent. */
  readonly path: string;
  readonly headers: IncomingHttpHeaders;
}

export interface Refusal {
  readonly status: 403 | 405;
  readonly reason: string;
}

const METHODS = ['GET', 'HEAD', 'POST'];

/**
 * Why a request may not be answered, whoever sends it, or `null`. It keeps out other web pages in the same browser: a name
 * that was pointed at 127.0.0.1 (Host), and a request that a foreign page makes (Origin, Sec-Fetch-Site).
 */
export function refusalOf({ method, path, headers }: Knock, port: number): Refusal | null {
  const { host, origin, 'sec-fetch-site': site } = headers;
  if (host !== `127.0.0.1:${port}` && host !== `localhost:${port}`)
    return refuse('This is not the address Ohmward is at.');
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return refuse(FOREIGN);
  if (origin !== undefined && origin !== `http://${host}`) return refuse(FOREIGN);
  if (!METHODS.includes(method))
    return { status: 405, reason: 'Ohmward does not take this kind of request.' };
  if (path === '/instance')
    return method === 'POST' && !isBrowser(headers)
      ? null
      : refuse('Only another start of Ohmward may ask this.');
  if (isQuestion(path))
    return method === 'POST' && origin !== undefined ? null : refuse('Only the Ohmward page may ask this.');
  return method === 'POST' ? { status: 405, reason: 'Nothing can be sent to this address.' } : null;
}

/** Whether a path asks the services something, as against asking for a file of the page. */
export const isQuestion = (path: string): boolean => path === '/rpc' || path.startsWith('/rpc/');

const FOREIGN = 'The request came from another web page.';

const refuse = (reason: string): Refusal => ({ status: 403, reason });

const isBrowser = (headers: IncomingHttpHeaders): boolean =>
  headers.origin !== undefined || headers['sec-fetch-site'] !== undefined;
