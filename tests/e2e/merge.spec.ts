import { expect, test, type Browser, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { sayWhoWorks, tabTo } from './bench.ts';
import { newDatabase, openShop } from './shop.ts';

const PANEL = 'Kittiwake KW-1, refitted panel';
const MARAS = 'Kittiwake KW-1, Mara’s panel';
const IRIS = 'Kittiwake KW-1, our own panel';

/** Begins a draft on the current revision, from the tree's list of revisions. */
async function beginDraft(page: Page): Promise<void> {
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await page.getByRole('link', { name: `Revisions of ${PANEL}` }).click();
  await page
    .getByRole('button', { name: /^Edit the revision of/ })
    .first()
    .click();
  await expect(page.getByRole('heading', { name: PANEL, level: 1 })).toBeVisible();
}

async function enter(page: Page, field: string, text: string): Promise<void> {
  await page.getByRole('textbox', { name: field, exact: true }).fill(text);
  await page.keyboard.press('Tab');
  await expect(page.getByText('Draft, all kept')).toBeVisible();
}

async function publish(page: Page, title: string, note: string): Promise<void> {
  await page.getByRole('button', { name: 'Publish…' }).click();
  const dialog = page.getByRole('dialog', { name: `Publish “${title}”` });
  await dialog.getByRole('textbox', { name: 'Note' }).fill(note);
  await dialog.getByRole('button', { name: 'Publish', exact: true }).click();
}

/** Another window of the same shop, in a browser of its own, with another technician at work. */
async function otherBench(browser: Browser, page: Page, name: string): Promise<Page> {
  const storageState = await page.context().storageState();
  const context = await browser.newContext({ storageState, viewport: { width: 1366, height: 768 } });
  const other = await context.newPage();
  await other.goto(`${new URL(page.url()).origin}/`);
  await other.getByRole('link', { name: 'Shop' }).click();
  await other.getByRole('textbox', { name: 'Name' }).first().fill(name);
  await other.keyboard.press('Enter');
  await other.getByRole('combobox', { name: 'Technician at work' }).selectOption({ label: name });
  return other;
}

test('who publishes second is shown what the other changed, decides what conflicts, merges and publishes', async ({
  page,
  browser,
}) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await beginDraft(page);
  await enter(page, 'Title', MARAS);
  await enter(page, 'Family', 'Kittiwake KW-1 of 1998');

  const other = await otherBench(browser, page, 'Iris');
  await beginDraft(other);
  await enter(other, 'Title', IRIS);
  await enter(other, 'Summary', 'For our own panel kit.');
  await publish(other, IRIS, 'Our own panel kit');
  await expect(other.getByRole('row', { name: IRIS })).toContainText('Published by Iris');

  await publish(page, MARAS, 'Mara’s panel kit');
  await expect(
    page.getByRole('heading', { name: 'The tree has been published since you began', level: 1 }),
  ).toBeVisible();
  await expect(page.getByRole('region', { name: 'Published since' })).toContainText('Our own panel kit');
  const since = page.getByRole('region', { name: 'The tree itself' });
  await expect(since).toContainText(`Title: “${IRIS}”, was “${PANEL}”`);
  await expect(since).toContainText('“For our own panel kit.”');
  const merge = page.getByRole('button', { name: 'Merge into the draft' });
  await expect(merge).toBeDisabled();
  await expect(page.getByRole('radio', { checked: true })).toHaveCount(0);
  await expectNoViolation(page, 'a merge to be decided');

  await tabTo(page, 'radio', /^As published/);
  await page.keyboard.press('Space');
  await expect(page.getByRole('status').filter({ hasText: 'merged tree' })).toHaveText(
    'The merged tree has no errors.',
  );
  await expectNoViolation(page, 'a merge decided');
  await tabTo(page, 'button', 'Merge into the draft');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: IRIS, level: 1 })).toBeVisible();
  await expect(page.getByRole('textbox', { name: 'Family', exact: true })).toHaveValue(
    'Kittiwake KW-1 of 1998',
  );
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await publish(page, IRIS, 'Both together');
  await expect(page.getByRole('row', { name: IRIS })).toContainText('Both together');

  await page.getByRole('link', { name: `Revisions of ${IRIS}` }).click();
  await page.getByRole('button', { name: 'Compare the two chosen' }).click();
  await expect(page.getByRole('heading', { name: `What has changed in ${IRIS}`, level: 1 })).toBeVisible();
  await expect(page.getByRole('status').filter({ hasText: 'differ' })).toHaveText(
    '1 part differs: 1 changed.',
  );
  await expect(page.getByRole('region', { name: 'The tree itself' })).toContainText(
    'Family: “Kittiwake KW-1 of 1998”, was “Kittiwake KW-1”',
  );
  await expectNoViolation(page, 'two revisions compared in words');
  await page.getByRole('button', { name: 'In the drawing' }).click();
  await expect(page.getByRole('combobox', { name: 'Path of' })).toBeVisible();
  await page.getByRole('combobox', { name: 'From' }).selectOption({ index: 2 });
  await expect(page.getByRole('status').filter({ hasText: 'differ' })).toHaveText(
    '1 part differs: 1 changed.',
  );
  await page.getByRole('button', { name: 'In words' }).click();
  await expect(page.getByRole('region', { name: 'The tree itself' })).toContainText(
    `Title: “${IRIS}”, was “${PANEL}”`,
  );
  await page.getByRole('button', { name: 'In the drawing' }).click();
  await expectNoViolation(page, 'two revisions compared in the drawing');
  await other.context().close();
  await shop.stop();
});
