import { cpSync, existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig, type MainViteConfig } from 'electron-vite';

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

type Plugins = NonNullable<MainViteConfig['plugins']>;

/**
 * The main process reads these beside its own file (`new URL('./migrations/', import.meta.url)`), so the bundle needs them
 * beside itself. The trees we ship are read from `../../trees/library/`, which is the same folder from `out/main` as from the source.
 */
const copyBesideBundle = (): Plugins[number] => ({
  name: 'ohmward:copy-beside-bundle',
  closeBundle() {
    const migrations = at('./main/records/migrations/');
    if (existsSync(migrations)) cpSync(migrations, at('./out/main/migrations/'), { recursive: true });
  },
});

export default defineConfig({
  main: {
    plugins: [copyBesideBundle()],
    build: {
      outDir: at('./out/main'),
      // The records' long tasks and the review run on threads of their own, which need files of their own. What they share
      // lies beside those, so that every module finds its files beside itself.
      rolldownOptions: {
        input: {
          index: at('./main/desktop/entry.ts'),
          task: at('./main/records/task.ts'),
          'review-thread': at('./main/services/review/review-thread.ts'),
        },
        output: { chunkFileNames: '[name]-[hash].js' },
      },
    },
  },
  preload: {
    build: {
      outDir: at('./out/preload'),
      // A sandboxed preload may require nothing but 'electron', and must be CommonJS.
      externalizeDeps: false,
      rolldownOptions: {
        input: { index: at('./main/desktop/preload.ts') },
        output: { format: 'cjs', entryFileNames: '[name].cjs' },
      },
    },
  },
  renderer: {
    root: at('./app'),
    plugins: [svelte()],
    build: {
      outDir: at('./out/renderer'),
      // The page's policy lets fonts come from the app's own origin only, so nothing is inlined as a data URL.
      assetsInlineLimit: 0,
      rolldownOptions: { input: at('./app/index.html') },
    },
  },
});
