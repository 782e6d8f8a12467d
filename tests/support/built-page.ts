import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { extname, join, normalize } from 'node:path';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { build } from 'vite';
import { SECURITY_HEADERS } from '../../main/loopback/index.ts';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
};

export interface BuiltPage {
  /** Add `?` and what the page is to show. */
  readonly address: string;
  readonly stop: () => void;
}

/** Builds the page in a folder beside this file and serves it under the hosts' own policy, so that its part can be tried by itself. */
export async function openBuiltPage(name: 'drawing-page' | 'plots-page'): Promise<BuiltPage> {
  const folder = mkdtempSync(join(tmpdir(), `ohmward-${name}-`));
  await build({
    configFile: false,
    root: join(import.meta.dirname, name),
    logLevel: 'error',
    plugins: [svelte({ configFile: false })],
    build: { outDir: folder, emptyOutDir: true, assetsInlineLimit: 0, chunkSizeWarningLimit: 4000 },
  });
  const server = createServer(({ url = '/' }, response) => {
    const path = normalize(new URL(url, 'http://localhost').pathname);
    const file = join(folder, path === '/' ? 'index.html' : path);
    try {
      const body = readFileSync(file);
      response.writeHead(200, {
        ...SECURITY_HEADERS,
        'content-type': TYPES[extname(file)] ?? 'application/octet-stream',
      });
      response.end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  return {
    address: `http://127.0.0.1:${String((server.address() as AddressInfo).port)}/`,
    stop: () => {
      server.close();
      server.closeAllConnections();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
