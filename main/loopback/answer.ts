import type { ServerResponse } from 'node:http';
import { SECURITY_HEADERS } from './headers.ts';

/** What goes back: the security headers are added when it is sent. */
export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Uint8Array | string;
}

/** A page in plain words for a person who came to a door that is shut. `help` says what to do. */
export function notice(status: number, title: string, help: string): Answer {
  const words = `<!doctype html>\n<html lang="en"><meta charset="utf-8"><title>${title}</title><h1>${title}</h1><p>${help}</p></html>\n`;
  return { status, headers: { 'content-type': 'text/html; charset=utf-8' }, body: words };
}

export const json = (status: number, value: unknown): Answer => ({
  status,
  headers: { 'content-type': 'application/json; charset=utf-8' },
  body: JSON.stringify(value),
});

export function send(response: ServerResponse, { status, headers, body }: Answer, withBody: boolean): void {
  const length = typeof body === 'string' ? Buffer.byteLength(body) : body.byteLength;
  response.writeHead(status, { ...headers, ...SECURITY_HEADERS, 'content-length': length });
  response.end(withBody ? body : undefined);
}
