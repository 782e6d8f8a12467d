import { expect, test, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { close, goToReview, grouped, openInvented, reviewOf, tableOf, type Reviewed } from './review.ts';

let reviewed: Reviewed;
test.beforeAll(async ({ browser }) => {
  test.setTimeout(180_000);
  reviewed = await openInvented(browser);
});
test.afterAll(() => close(reviewed));

/** The button of a table that leads to the jobs without a fault found. */
function noFaultFound(page: Page) {
  return tableOf(page, 'Outcomes')
    .getByRole('row', { name: /No fault found/ })
    .getByRole('button');
}

test('left, the jobs behind a figure do not open again on the way back, and what opened them has the keys', async () => {
  const { page } = reviewed;
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Bench' }).click();
  await goToReview(reviewed, '?window=30');
  const dialog = page.getByRole('dialog');
  for (const leave of [
    () => page.keyboard.press('Escape'),
    () => dialog.getByRole('button', { name: 'Leave' }).click(),
  ]) {
    await noFaultFound(page).click();
    await expect(dialog.getByRole('row').nth(1)).toBeVisible();
    await leave();
    await expect(dialog).toBeHidden();
    await expect(page).toHaveURL(/#\/review\?window=30$/);
    await expect(noFaultFound(page)).toBeFocused();
  }
  await page.goBack();
  await expect(page).toHaveURL(/#\/bench/);
  await expect(dialog).toBeHidden();
  await page.goForward();
  await expect(page).toHaveURL(/#\/review\?window=30$/);
});

test('left after a look at a job, they are gone from the way back too, and what opened them has the keys', async () => {
  const { page } = reviewed;
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Bench' }).click();
  await goToReview(reviewed);
  const dialog = page.getByRole('dialog');
  await noFaultFound(page).focus();
  await page.keyboard.press('Enter');
  await dialog.getByRole('table').getByRole('link').first().click();
  await expect(page.getByRole('region', { name: /^Job / })).toBeVisible();
  await page.goBack();
  await expect(dialog.getByRole('row').nth(1)).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(dialog).toBeHidden();
  await expect(page).toHaveURL(/#\/review$/);
  await expect(noFaultFound(page)).toBeFocused();
  await page.goBack();
  await expect(page).toHaveURL(/#\/bench/);
});

test('opened by their address they are left for the page, whose heading has the keys', async () => {
  const { page } = reviewed;
  await goToReview(reviewed, '?jobs=outcome:no-fault-found');
  const dialog = page.getByRole('dialog');
  await expect(dialog.getByRole('row').nth(1)).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(dialog).toBeHidden();
  await expect(page).toHaveURL(/#\/review$/);
  await expect(page.getByRole('heading', { level: 1 })).toBeFocused();
  await page.goBack();
  await expect(dialog).toBeHidden();
});

test('each job that was not fixed the first time says why, and leads to the job that its unit was back with', async () => {
  const { page } = reviewed;
  const { firstTimeFix } = reviewOf(reviewed);
  await goToReview(reviewed, '?jobs=not-first-time-fixed');
  const dialog = page.getByRole('dialog', { name: 'Not fixed the first time' });
  await expect(dialog).toContainText(`${grouped(firstTimeFix.closed - firstTimeFix.fixed)} jobs`);
  const rows = dialog.locator('tbody tr');
  await expect(rows).toHaveCount(50);
  const fixed = rows.filter({ hasText: 'Fixed' });
  expect(await fixed.count()).toBeGreaterThan(0);
  for (const row of await fixed.all())
    await expect(row.getByRole('cell').nth(2)).toHaveText(/back on day \d+|\d remed(y|ies) in vain before/);
  await expectNoViolation(page, 'why jobs were not fixed the first time', '[role=dialog]');
  await page.keyboard.press('Escape');
});

test('each unit that is back says on which day, and leads to the job that it was back with', async () => {
  const { page } = reviewed;
  const { comebackFree } = reviewOf(reviewed);
  const back = comebackFree.reduce((sum, point) => sum + (point.days <= 90 ? point.back : 0), 0);
  await goToReview(reviewed, '?jobs=back:90');
  const dialog = page.getByRole('dialog', { name: 'Back within 90 days' });
  const rows = dialog.locator('tbody tr');
  await expect(rows).toHaveCount(Math.min(50, back));
  const links = dialog.getByRole('link', { name: /^day \d+/ });
  await expect(links).toHaveCount(await rows.count());
  const days = (await links.allInnerTexts()).map((words) => Number(/\d+/.exec(words)?.[0]));
  expect(Math.max(...days)).toBeLessThanOrEqual(90);
  const former = rows.first().getByRole('rowheader').getByRole('link');
  const [serial, address] = [(await former.innerText()).trim(), await former.getAttribute('href')];
  await links.first().click();
  await expect(page.getByRole('region', { name: `Job ${serial}` })).toBeVisible();
  expect(page.url()).not.toContain(address);
  await page.goBack();
  await expect(dialog).toBeVisible();
  await page.keyboard.press('Escape');
});
