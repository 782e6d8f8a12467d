import Sqlite from 'better-sqlite3';
import { expect, test, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { act, record, sayWhoWorks, tabTo, trail, walkTo } from './bench.ts';
import { newDatabase, openShop } from './shop.ts';
import { inventJobs } from './invented-jobs.ts';

const PANEL = 'Kittiwake KW-1, refitted panel';
const SUMMARY = 'Our own words about this unit, not published yet.';

/** What the records hold of jobs: rows of every table that a job adds to. */
function recorded(file: string): Readonly<Record<string, unknown>> {
  const db = new Sqlite(file, { readonly: true });
  const tables = ['job', 'job_event', 'finding_count', 'result_count', 'remedy_count', 'tally'];
  const rows = tables.map((table) => [table, db.prepare(`SELECT * FROM ${table}`).all()]);
  db.close();
  return Object.fromEntries(rows);
}

async function editPanel(page: Page): Promise<void> {
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await page.getByRole('button', { name: `Edit ${PANEL}` }).click();
  await expect(page.getByRole('heading', { name: PANEL, level: 1 })).toBeVisible();
}

test('a draft is tried on the bench’s own screens by keyboard alone, and nothing of it is recorded', async ({
  page,
}) => {
  test.slow();
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  const before = recorded(shop.file);
  await editPanel(page);
  await page.getByRole('textbox', { name: 'Summary' }).fill(SUMMARY);
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await tabTo(page, 'button', 'Try it');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'What is wrong with the unit?' })).toBeVisible();
  await expectNoViolation(page, 'the symptoms to try');
  await tabTo(page, 'button', 'No power LED');
  await page.keyboard.press('Enter');
  await expect(page.getByText(SUMMARY)).toBeVisible();
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText('Cells and springs');
  await expect(page.getByRole('img', { name: /Where to probe/ })).toBeVisible();
  await expectNoViolation(page, 'a try-out');

  // Another answer, then on to the end.
  await record(page, () => page.keyboard.press('2'));
  await record(page, () => page.keyboard.press('Control+z'));
  await expect(act(page)).toHaveText('Cells and springs');
  await record(page, () => page.keyboard.press('1'));
  await page.keyboard.type('5.9');
  await record(page, () => page.keyboard.press('Enter'));
  await expect(page.getByText('Nothing done here is recorded.')).toBeInViewport();
  await page.keyboard.type('OL');
  await record(page, () => page.keyboard.press('Enter'));
  await walkTo(page, 'Start the remedy', { 'Fuse F1': 'OL' });
  await record(page, () => page.keyboard.press('Enter'));
  await walkTo(page, 'Close as fixed', {
    'Fuse F1': '0.2',
    'Supply to ground': '4k7',
    '5 V rail to ground': '1k2',
    'Current at first power': '150m',
    'Power LED': '1',
  });
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Fixed');
  await expect(page.getByText('Nothing done here is recorded.')).toBeInViewport();
  await expect(page.getByRole('link', { name: 'Job sheet' })).toBeHidden();

  await page.getByRole('button', { name: 'Start over' }).click();
  await expect(trail(page)).toHaveCount(0);
  await page.getByRole('combobox', { name: 'Symptom' }).selectOption('Dark screen');
  await expect(act(page)).toHaveText('Dark screen');
  await page.getByRole('button', { name: 'Back to the draft' }).click();
  await expect(page.getByRole('textbox', { name: 'Summary' })).toHaveValue(SUMMARY);

  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Bench' }).click();
  await expect(page.getByRole('heading', { name: 'Jobs', level: 1 })).toBeVisible();
  await expect(page.getByRole('table')).toHaveCount(0);
  await expect(page.getByText('Try-out')).toHaveCount(0);
  expect(recorded(shop.file)).toEqual(before);
  await shop.stop();
});

test('a draft with errors is not tried: what stops it is said, and led to', async ({ page }) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await editPanel(page);
  await page.getByRole('textbox', { name: 'Title', exact: true }).fill('');
  await page.keyboard.press('Tab');
  await page.getByRole('button', { name: 'Try it' }).click();
  await expect(page.getByRole('heading', { name: 'The draft cannot be walked yet' })).toBeVisible();
  await expectNoViolation(page, 'a draft that cannot be tried');
  await page.getByRole('button', { name: 'Go to The tree itself: Title' }).click();
  await expect(page.getByRole('textbox', { name: 'Title', exact: true })).toBeVisible();
  await shop.stop();
});

test('the shop’s closed jobs are replayed on a draft, and stay as they were', async ({ page }) => {
  test.slow();
  const file = newDatabase();
  inventJobs(file, 160, 3);
  const shop = await openShop(file);
  await page.goto(shop.address);
  await expect(page.getByRole('heading', { name: 'Jobs', level: 1 })).toBeVisible();
  await page.getByRole('combobox').first().selectOption({ index: 1 });
  const before = recorded(file);
  await editPanel(page);
  const lengthen = async (): Promise<void> => {
    await page.getByRole('treeitem', { name: 'Cells and springs' }).click();
    await page.getByRole('textbox', { name: 'Minutes' }).fill('4.4');
    await page.keyboard.press('Tab');
    await expect(page.getByText('Draft, all kept')).toBeVisible();
  };
  await page.getByRole('button', { name: 'Replay the shop' }).click();
  await page.getByRole('button', { name: 'Replay them' }).click();
  await expect(
    page.getByText(/^Of \d+ jobs, (\d+) come to the same end \(0 in more minutes, 0 in fewer\)/),
  ).toBeVisible();
  await page.getByRole('button', { name: 'Back to the draft' }).click();

  await lengthen();
  await page.getByRole('button', { name: 'Replay the shop' }).click();
  await expectNoViolation(page, 'a replay to be begun');
  await page.getByRole('combobox', { name: 'Closed jobs, newest first' }).selectOption('50');
  await page.getByRole('button', { name: 'Replay them' }).click();
  await expect(
    page.getByText(/^Of 50 jobs, 50 come to the same end \([1-9]\d* in more minutes, 0 in fewer\)/),
  ).toBeVisible();
  await page.getByRole('button', { name: /^Longer [1-9]/ }).click();
  const rows = page.getByRole('row').filter({ has: page.getByRole('rowheader') });
  const longer = rows.filter({ hasText: '+4 min' }).first();
  await expect(longer).toBeVisible();
  await longer.getByRole('button').click();
  await expect(
    page.getByRole('region', { name: 'Recorded in the job' }).getByText('Cells and springs').first(),
  ).toBeVisible();
  await expect(
    page.getByRole('region', { name: 'On the draft' }).getByText('Cells and springs').first(),
  ).toBeVisible();
  await expectNoViolation(page, 'a replay');
  expect(recorded(file)).toEqual(before);
  await shop.stop();
});

test('a shop without a closed job is told that there is nothing to replay', async ({ page }) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await editPanel(page);
  await page.getByRole('button', { name: 'Replay the shop' }).click();
  await page.getByRole('button', { name: 'Replay them' }).click();
  await expect(page.getByText('No job of this tree is closed yet')).toBeVisible();
  await expectNoViolation(page, 'nothing to replay');
  await shop.stop();
});
