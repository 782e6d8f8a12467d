import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { request, type IncomingHttpHeaders } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { readPage, startLoopbackHost, type Mounted, type Page } from '../../main/loopback/index.ts';

export interface Reply {
  readonly status: number;
  readonly headers: IncomingHttpHeaders;
  readonly text: string;
}

export interface Ask {
  readonly port: number;
  readonly path: string;
  readonly method?: string;
  readonly headers?: Readonly<Record<string, string>>;
  readonly body?: Uint8Array | string;
}

/** A raw request: unlike fetch it sends exactly this path and these headers, `Host` and `Origin` among them. */
export function ask({ port, path, method = 'GET', headers = {}, body }: Ask): Promise<Reply> {
  return new Promise((resolve, reject) => {
    const asked = request(
      { host: '127.0.0.1', port, path, method, headers: { host: `127.0.0.1:${port}`, ...headers } },
      (response) => {
        let text = '';
        response.setEncoding('utf8');
        response.on('data', (part: string) => (text += part));
        response.on('end', () =>
          resolve({ status: response.statusCode ?? 0, headers: response.headers, text }),
        );
      },
    );
    asked.on('error', reject);
    asked.end(body);
  });
}

export const folder = (): string => mkdtempSync(join(tmpdir(), 'ohmward-hosts-'));

/** A tiny built app, with a file beside it that must never be served. */
export function builtApp(top: string): string {
  const page = join(top, 'renderer');
  mkdirSync(join(page, 'assets'), { recursive: true });
  writeFileSync(join(top, 'secret.txt'), 'not for the page');
  writeFileSync(
    join(page, 'index.html'),
    '<!doctype html><title>Ohmward</title><script type="module" src="./assets/a.js"></script>',
  );
  writeFileSync(join(page, 'assets', 'a.js'), 'document.title = "it runs";');
  writeFileSync(join(page, '.hidden'), 'not for the page');
  return page;
}

export const portOf = (address: string): number => Number(new URL(address).port);

export const pathOf = (address: string): string => new URL(address).pathname + new URL(address).search;

/** A loopback host with these services, closed when the test is over; what its page sends with each question, and what the host reported as a bug. */
export async function hostOf(services: Mounted) {
  const top = folder();
  const reported: unknown[] = [];
  const host = await startLoopbackHost({
    instanceFile: join(top, 'shop.sqlite.instance'),
    page: readPage(builtApp(top)) as Page,
    openServices: async () => services,
    now: () => performance.now(),
    report: (error) => reported.push(error),
  });
  if (host.kind !== 'started') throw new Error('another host has the database');
  onTestFinished(host.close);
  const port = portOf(host.freshAddress());
  const first = await ask({ port, path: pathOf(host.freshAddress()) });
  const headers = {
    host: `127.0.0.1:${String(port)}`,
    cookie: String(first.headers['set-cookie']?.[0]).split(';')[0] ?? '',
    origin: `http://127.0.0.1:${String(port)}`,
    'sec-fetch-site': 'same-origin',
    'content-type': 'application/json',
  };
  return { port, headers, reported };
}
