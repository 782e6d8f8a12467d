import { execFileSync } from 'node:child_process';
import { copyFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, type Browser, type Locator, type Page } from '@playwright/test';
import type { ReviewNames } from '../../main/contract/index.ts';
import type { Review } from '../../trees/review/index.ts';
import { inventJobs } from './invented-jobs.ts';
import { newDatabase, openShop, type Shop } from './shop.ts';

const ohmward = fileURLToPath(new URL('../../main/command/ohmward.ts', import.meta.url));
const JOBS = 2000;
/** The first answer after a start works out what every tree expects. */
export const FIRST_ANSWER = { timeout: 90_000 };

/** Made once for all files of tests that one process runs. */
let made: string | null = null;

/** A window on a shop, and the shop; all tests of a file look through it. */
export interface Reviewed {
  readonly shop: Shop;
  readonly page: Page;
}

/** Opens a shop with an invented history of 2,000 jobs. */
export async function openInvented(browser: Browser): Promise<Reviewed> {
  if (made === null) {
    made = newDatabase();
    inventJobs(made, JOBS, 7);
  }
  const file = newDatabase();
  copyFileSync(made, file);
  return openOn(browser, file);
}

/** Opens a shop on a database, in a window of its own. */
export async function openOn(browser: Browser, file: string): Promise<Reviewed> {
  const shop = await openShop(file);
  const context = await browser.newContext({ viewport: { width: 1366, height: 768 } });
  const page = await context.newPage();
  await page.goto(shop.address);
  await expect(page.getByRole('heading', { name: 'Jobs', level: 1 })).toBeVisible();
  return { shop, page };
}

export async function close({ shop, page }: Reviewed): Promise<void> {
  await page.context().close();
  await shop.stop();
}

/** Goes to a place of the review, as a link to it does, and waits until its figures are there. */
export async function goToReview({ page, shop }: Reviewed, query = ''): Promise<void> {
  await page.goto(`${new URL('/', shop.address).href}#/review${query}`);
  await expect(partsOf(page)).toBeVisible(FIRST_ANSWER);
  await expect(page.locator('[aria-busy=true]')).toHaveCount(0, FIRST_ANSWER);
}

export function partsOf(page: Page): Locator {
  return page.getByRole('navigation', { name: 'Parts of the review' });
}

export function tableOf(page: Page, caption: string): Locator {
  return page.getByRole('table', { name: caption });
}

/** What the command says of a database. */
export function reviewOf({ shop }: Reviewed, ...options: readonly string[]): Review & { names: ReviewNames } {
  const said = execFileSync(process.execPath, [ohmward, 'review', '--db', shop.file, '--json', ...options], {
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
  return JSON.parse(said) as Review & { names: ReviewNames };
}

/** A count as the page writes it. */
export function grouped(count: number): string {
  return new Intl.NumberFormat('en-GB').format(count);
}

/** A share as the page writes it. */
export function percents(share: number): string {
  return `${String(Math.round(share * 100))}\u202f%`;
}
