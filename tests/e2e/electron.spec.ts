import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { _electron as electron, expect, test } from '@playwright/test';

// Runs where Electron's runtime is; where it is not, the runner says that this was not run.
const top = fileURLToPath(new URL('../..', import.meta.url));

test('the desktop host shows the app in a sandboxed window and answers it', async () => {
  const file = join(mkdtempSync(join(tmpdir(), 'ohmward-electron-')), 'shop.sqlite');
  const asRoot = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  const app = await electron.launch({ args: [...asRoot, top, `--db=${file}`] });
  const broken: string[] = [];
  const page = await app.firstWindow();
  page.on('console', (message) => {
    if (message.text().includes('Content Security Policy')) broken.push(message.text());
  });

  await expect(page).toHaveTitle(/Ohmward/);
  expect(page.url()).toMatch(/^ohmward-app:\/\/app\//);
  await expect(page.getByRole('heading').first()).toBeVisible();
  expect(
    await page.evaluate(() => [
      typeof Reflect.get(globalThis, 'require'),
      Reflect.get(globalThis, 'ohmward'),
    ]),
  ).toEqual(['undefined', { host: 'desktop' }]);
  expect(broken).toEqual([]);

  await page.evaluate(() => void location.assign('https://evil.example/'));
  await page.evaluate(() => void window.open('https://evil.example/'));
  expect(page.url()).toMatch(/^ohmward-app:\/\/app\//);
  expect(app.windows()).toHaveLength(1);
  await app.close();
});
