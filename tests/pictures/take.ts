import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { act, NO_POWER_LED, openJob, record, walkTo } from '../e2e/bench.ts';
import { newDatabase, openShop } from '../e2e/shop.ts';
import { launchBrowser } from '../support/browser.ts';

const here = import.meta.dirname;
const command = join(here, '../../main/command/ohmward.ts');
const NIGHT = 'dark';

/** Makes README's pictures of the app again, from the demo: always the same seed and day. */
async function takePictures(): Promise<void> {
  const file = inventShop(400);
  const chromiumBrowser = await launchBrowser();
  const page = await chromiumBrowser.newPage({ viewport: { width: 1366, height: 768 } });
  const shop = await openShop(file);
  await page.goto(shop.address);
  await page.getByRole('combobox', { name: 'Technician at work' }).selectOption({ index: 1 });
  await walkThrough(page);
  await lookAtTrees(page);
  await shop.stop();
  await lookAtReview(page);
  await chromiumBrowser.close();
}

function inventShop(jobs: number): string {
  const file = newDatabase();
  const demo = ['demo', '--db', file, '--jobs', String(jobs), '--seed', '7', '--until', '2026-11-20'];
  const made = spawnSync(process.execPath, [command, ...demo], { stdio: 'inherit' });
  if (made.status !== 0) throw new Error('the demo could not be made');
  return file;
}

async function walkThrough(page: Page): Promise<void> {
  await page.getByRole('heading', { name: 'Jobs', level: 1 }).waitFor();
  await take(page, 'jobs');
  await openJob(page, NO_POWER_LED);
  await record(page, () => page.keyboard.press('Enter'));
  await take(page, 'question');
  await walkTo(page, 'Record', { 'Cells and springs': '1' });
  await page.keyboard.type('5.9');
  await record(page, () => page.keyboard.press('Enter'));
  await page.keyboard.type('4k7');
  await take(page, 'reading');
  await page.getByRole('textbox', { name: /reading/i }).fill('OL');
  await record(page, () => page.keyboard.press('Enter'));
  await walkTo(page, 'Start the remedy', { 'Fuse F1': 'OL' });
  await take(page, 'finding', NIGHT);
  await record(page, () => page.keyboard.press('Enter'));
  await record(page, () => page.keyboard.press('Enter'));
  const proofs = { 'Fuse F1': '0.2', 'Supply to ground': '4k7', '5 V rail to ground': '1k2' };
  await walkTo(page, 'Close as fixed', { ...proofs, 'Current at first power': '150m', 'Power LED': '1' });
  await record(page, () => page.keyboard.press('Enter'));
  await act(page).waitFor();
  await page.getByRole('link', { name: 'Job sheet' }).first().click();
  await page.getByRole('heading', { name: 'Job sheet' }).waitFor();
  await take(page, 'sheet');
}

/** The editor, with the shop’s history behind it. Drafts are begun as a technician of the shop would. */
async function lookAtTrees(page: Page): Promise<void> {
  await page.setViewportSize({ width: 1600, height: 900 });
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await page.getByRole('button', { name: 'Edit Kittiwake KW-1, refitted panel' }).click();
  await page.getByRole('rowheader', { name: 'To the finding' }).waitFor();
  await page.getByRole('treeitem', { name: 'No power LED' }).click();
  await page
    .getByText(/^\d+\.\d min$/)
    .first()
    .waitFor();
  await page.getByText('Laying the path out').waitFor({ state: 'hidden' });
  await take(page, 'tree-drawing');
  await page.getByRole('button', { name: 'Table', exact: true }).click();
  await page.getByRole('grid').waitFor();
  await take(page, 'tree-table', NIGHT);
  await page.getByRole('button', { name: 'Drawing', exact: true }).click();
  await page.getByRole('button', { name: 'Find', exact: true }).click();
  await page.getByRole('searchbox', { name: 'Some of its name' }).fill('Supply to ground');
  await page.getByRole('button', { name: /^Supply to ground\s+test$/ }).click();
  await page.getByRole('region', { name: 'What the shop has read' }).scrollIntoViewIfNeeded();
  await page.getByText('Laying the path out').waitFor({ state: 'hidden' });
  await take(page, 'tree-limits');
}

/** The review of a shop with a year behind it. */
async function lookAtReview(page: Page): Promise<void> {
  const shop = await openShop(inventShop(2000));
  await page.setViewportSize({ width: 1600, height: 900 });
  await page.goto(shop.address);
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Review' }).click();
  await page.getByRole('heading', { name: 'Comebacks' }).waitFor({ timeout: 90_000 });
  await take(page, 'review');
  await page.keyboard.press('3');
  await take(page, 'review-hours', NIGHT);
  await page.keyboard.press('4');
  await take(page, 'review-tree');
  await page.getByRole('link', { name: 'Sheet for the month' }).click();
  await page.getByRole('article').waitFor();
  await take(page, 'review-sheet');
  await shop.stop();
}

async function take(page: Page, name: string, colorScheme: 'light' | typeof NIGHT = 'light'): Promise<void> {
  await page.emulateMedia({ colorScheme, reducedMotion: 'reduce' });
  await page.evaluate(() => document.fonts.ready);
  await page.screenshot({ path: join(here, `${name}.png`), animations: 'disabled' });
  await page.emulateMedia({ colorScheme: 'light' });
}

await takePictures();
