import { expect, type Page } from '@playwright/test';
import {
  act,
  NO_POWER_LED,
  openJob,
  record,
  sayWhoWorks,
  walkTo,
  type Answers,
  type Ticket,
} from './bench.ts';
import { newDatabase, openShop, type Shop } from './shop.ts';

/** A unit whose fuse F1 has blown, as far as its finding. */
export const FUSE_BLOWN: Answers = {
  'Cells and springs': '1',
  'Cells, at rest': '5.9',
  'Supply to ground': 'OL',
  'Fuse F1': 'OL',
};

/** The same unit with a new fuse. */
export const FUSE_NEW: Answers = {
  'Fuse F1': '0.2',
  'Supply to ground': '4k7',
  '5 V rail to ground': '1k2',
  'Current at first power': '150m',
  'Power LED': '1',
};

/** A shop with one technician and one job, its cautions read and its first test asked. */
export async function begun(page: Page, ticket: Ticket = NO_POWER_LED): Promise<Shop> {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await openJob(page, ticket);
  await page.keyboard.press('Enter');
  await expect(act(page)).not.toHaveText(ticket.symptom);
  return shop;
}

/** Types a reading as the meter shows it and records it. */
export async function measure(page: Page, typed: string): Promise<void> {
  await record(page, async () => {
    await page.getByRole('textbox', { name: /reading/i }).fill(typed);
    await page.keyboard.press('Enter');
  });
}

/** Turns to a test out of order by its whole title. */
export async function turnTo(page: Page, title: string): Promise<void> {
  await record(page, async () => {
    await page.keyboard.press('Escape');
    await page.keyboard.press('t');
    await page.getByRole('dialog').getByRole('searchbox').fill(title);
    await page.keyboard.press('Enter');
  });
  await expect(page.getByRole('dialog')).toBeHidden();
}

/** Finds the fuse blown and does its remedy, as far as the first test of its proof. */
export async function fitFuse(page: Page): Promise<void> {
  await walkTo(page, 'Start the remedy', FUSE_BLOWN);
  await expect(act(page)).toHaveText('Fuse F1 open');
  await record(page, () => page.keyboard.press('Enter'));
  await walkTo(page, 'Remedy done', {});
  await record(page, () => page.keyboard.press('Enter'));
  await expect(page.getByText('Proof 1 of 5')).toBeVisible();
}

/** Proves the new fuse and closes the job as fixed. */
export async function proveFuse(page: Page): Promise<void> {
  await walkTo(page, 'Close as fixed', FUSE_NEW);
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Fixed');
}
