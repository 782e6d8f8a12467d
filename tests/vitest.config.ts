import { fileURLToPath } from 'node:url';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  // The app's runes classes run as in the window, where what is derived follows what it is derived from.
  plugins: [svelte({ configFile: false, dynamicCompileOptions: () => ({ generate: 'client' }) })],
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/e2e/**', 'node_modules/**'],
    setupFiles: ['tests/support/seed.ts'],
    environment: 'node',
    pool: 'forks',
    testTimeout: 30_000,
  },
});
