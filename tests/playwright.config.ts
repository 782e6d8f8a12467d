import { defineConfig } from '@playwright/test';

const executablePath = process.env['OHMWARD_TEST_BROWSER'];

export default defineConfig({
  testDir: './e2e',
  outputDir: './output/e2e',
  fullyParallel: false,
  workers: 1,
  retries: 0,
  timeout: 120_000,
  expect: { timeout: 10_000 },
  projects: [
    {
      name: 'browser',
      testIgnore: '**/electron.spec.ts',
      use: {
        viewport: { width: 1366, height: 768 },
        launchOptions: {
          ...(executablePath === undefined ? {} : { executablePath }),
          args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
        },
      },
    },
    { name: 'electron', testMatch: '**/electron.spec.ts' },
  ],
});
