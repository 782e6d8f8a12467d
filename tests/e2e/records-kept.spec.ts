import Sqlite from 'better-sqlite3';
import { expect, test } from '@playwright/test';
import { NO_POWER_LED, openJob, sayWhoWorks, showJobs } from './bench.ts';
import { newDatabase, openShop } from './shop.ts';

test('records of a newer Ohmward are not opened, and are left as they are', async ({ page }) => {
  const file = newDatabase();
  const first = await openShop(file);
  await first.stop();
  const db = new Sqlite(file);
  const ours = Number(db.pragma('user_version', { simple: true }));
  db.pragma(`user_version = ${String(ours + 1)}`);
  db.close();

  const second = await openShop(file);
  await page.goto(second.address);
  await expect(
    page.getByRole('heading', { name: 'The shop’s records cannot be opened', level: 1 }),
  ).toBeVisible();
  await expect(page.getByText('written by a newer Ohmward than this one')).toBeVisible();
  await expect(page.getByText(file)).toBeVisible();
  await page.getByRole('button', { name: 'Try again' }).click();
  await expect(page.getByText('NEWER_DATABASE')).toBeVisible();
  await second.stop();
  const after = new Sqlite(file, { readonly: true });
  expect(after.pragma('user_version', { simple: true })).toBe(ours + 1);
  after.close();
});

test('a backup is made, and restored in the database’s place as it was then', async ({ page }) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await openJob(page, NO_POWER_LED);
  await page.getByRole('link', { name: 'Shop' }).click();
  await page.getByRole('button', { name: 'Make a backup now' }).click();
  await expect(page.getByRole('button', { name: /^Restore the backup/ })).toHaveCount(1);
  await page.getByRole('link', { name: 'Bench' }).click();
  await showJobs(page);
  await openJob(page, { ...NO_POWER_LED, serial: 'KW1-0099' });

  await page.getByRole('link', { name: 'Shop' }).click();
  await page.getByRole('button', { name: /^Restore the backup/ }).click();
  const dialog = page.getByRole('dialog', { name: 'Restore this backup?' });
  await expect(dialog).toContainText('nothing is deleted');
  await dialog.getByRole('button', { name: 'Restore', exact: true }).click();
  await expect(dialog).toBeHidden();
  await expect(page.getByText('1 open, 0 closed')).toBeVisible();
  await page.getByRole('link', { name: 'Bench' }).click();
  await showJobs(page);
  await expect(page.getByRole('row', { name: /KW1-0042/ })).toHaveCount(1);
  await expect(page.getByRole('row', { name: /KW1-0099/ })).toHaveCount(0);
  await shop.stop();
});
