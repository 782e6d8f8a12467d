import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { extname, join, sep } from 'node:path';

export interface PageFile {
  readonly type: string;
  readonly body: Uint8Array<ArrayBuffer>;
}

/** The built app: each file by the exact path it is asked for by. What is not in here cannot be served. */
export type Page = ReadonlyMap<string, PageFile>;

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.txt': 'text/plain; charset=utf-8',
};

/**
 * Reads the built app whole, once, so that no request ever names a file on the disk. `/` is `index.html`; hidden files are left out.
 * `null` where there is no built app in `folder`.
 */
export function readPage(folder: string): Page | null {
  if (!existsSync(join(folder, 'index.html'))) return null;
  const page = new Map<string, PageFile>();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const file = join(entry.parentPath, entry.name);
    const path = file
      .slice(folder.replace(/[\\/]+$/, '').length)
      .split(sep)
      .join('/');
    if (!entry.isFile() || path.includes('/.')) continue;
    page.set(path, {
      type: TYPES[extname(path)] ?? 'application/octet-stream',
      body: new Uint8Array(readFileSync(file)),
    });
  }
  const index = page.get('/index.html');
  if (index !== undefined) page.set('/', index);
  return page;
}
