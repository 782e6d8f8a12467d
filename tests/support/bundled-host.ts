import { cpSync, rmSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));
/** As deep as `out/main`, so that what the services read beside the bundle is found. */
const FOLDER = at('../output/bundled-host/');

/**
 * Builds the review's host and the services' threads as electron.config.ts builds the main process, in a folder of their own, since
 * a process run from source also holds what strips the types. Gives the host's file.
 */
export async function bundledHost(): Promise<string> {
  rmSync(FOLDER, { recursive: true, force: true });
  await build({
    configFile: false,
    logLevel: 'warn',
    build: {
      ssr: true,
      target: 'node22',
      outDir: `${FOLDER}out/main`,
      rolldownOptions: {
        input: {
          host: at('./review-host.ts'),
          task: at('../../main/records/task.ts'),
          'review-thread': at('../../main/services/review/review-thread.ts'),
        },
        output: { chunkFileNames: '[name]-[hash].js' },
      },
    },
  });
  cpSync(at('../../main/records/migrations/'), `${FOLDER}out/main/migrations/`, { recursive: true });
  cpSync(at('../../trees/library/'), `${FOLDER}trees/library/`, { recursive: true });
  return `${FOLDER}out/main/host.js`;
}
