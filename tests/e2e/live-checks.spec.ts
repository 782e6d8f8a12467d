import { expect, test, type Locator, type Page } from '@playwright/test';
import { sayWhoWorks } from './bench.ts';
import { newDatabase, openShop } from './shop.ts';

const PANEL = 'Kittiwake KW-1, refitted panel';
const checks = (page: Page): Locator => page.getByRole('region', { name: 'Checks' });
const cost = (page: Page): Locator => page.getByRole('region', { name: 'Cost' });

/** Opens a draft of the panel’s tree at one of its tests. */
async function editTest(page: Page, title: string): Promise<void> {
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await page.getByRole('button', { name: `Edit ${PANEL}` }).click();
  await page.getByRole('button', { name: 'Find', exact: true }).click();
  await page.getByRole('searchbox', { name: 'Some of its name' }).fill(title);
  await page.getByRole('button', { name: new RegExp(`^${title}\\s+test$`) }).click();
  await expect(page.getByRole('heading', { name: title, level: 2 })).toBeVisible();
}

test('checks and cost follow what is typed, and say what it changes against before and as published', async ({
  page,
}) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await editTest(page, 'Cells and springs');
  await expect(checks(page)).toContainText('Nothing to mend');
  await expect(cost(page).getByRole('columnheader', { name: 'As published' })).toBeVisible();

  const minutes = page.getByRole('textbox', { name: 'Minutes' });
  await minutes.fill('30');
  await minutes.blur();
  const toFinding = cost(page).getByRole('row', { name: /To the finding/ });
  await expect(toFinding).toContainText(/min more now/);
  await expect(cost(page).getByRole('columnheader', { name: 'Before this edit' })).toBeVisible();
  await expect(cost(page).getByRole('row', { name: /To mended or passed on/ })).toContainText(/min more now/);

  const title = page.getByRole('textbox', { name: 'Title', exact: true });
  await title.fill('');
  await title.blur();
  await expect(checks(page)).toContainText('1 error');
  await checks(page)
    .getByRole('button', { name: /^Go to/ })
    .first()
    .click();
  await expect(title).toBeFocused();
  await page.getByRole('button', { name: 'Publish…' }).click();
  const stops = page.getByRole('dialog').getByRole('alert');
  await expect(stops).toContainText(/Test \d+, untitled: Title: This text is empty\. Write it\./);
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(checks(page)).toContainText('Nothing to mend');
  await shop.stop();
});
