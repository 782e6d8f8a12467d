import { mkdirSync, mkdtempSync, writeFileSync } from 'node:fs';
import { request, type IncomingHttpHeaders } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

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
