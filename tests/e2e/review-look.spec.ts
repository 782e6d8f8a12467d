import { expect, test } from '@playwright/test';
import { close, goToReview, openInvented, partsOf, tableOf, type Reviewed } from './review.ts';

let reviewed: Reviewed;
test.beforeAll(async ({ browser }) => {
  test.setTimeout(180_000);
  reviewed = await openInvented(browser);
});
test.afterAll(() => close(reviewed));

const BRANCHES = 'Branches, those that differ first';

test('the list of parts is as large whichever part is the current one', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  const buttons = partsOf(page).getByRole('button');
  const heights: (readonly number[])[] = [];
  for (const key of ['1', '2', '3', '4', '5']) {
    await page.keyboard.press(key);
    await expect(buttons.nth(Number(key) - 1)).toHaveAttribute('aria-current', 'location');
    heights.push(await buttons.evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height)));
  }
  for (const one of heights) expect(one).toEqual(heights[0]);
  const titles = await buttons
    .locator('[data-title]')
    .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().height));
  expect(titles).toHaveLength(5);
  expect(new Set(titles).size, 'no title takes two lines').toBe(1);
});

test('in a window of 900 pixels the way to a branch’s tree is in sight', async () => {
  const { page } = reviewed;
  await page.setViewportSize({ width: 900, height: 768 });
  await goToReview(reviewed);
  const link = tableOf(page, BRANCHES)
    .getByRole('link', { name: /^Open in the tree/ })
    .first();
  await link.scrollIntoViewIfNeeded();
  const right = await link.evaluate((one) => {
    const place = one.closest('table')?.parentElement?.getBoundingClientRect();
    return { link: one.getBoundingClientRect().right, place: place?.right ?? 0 };
  });
  expect(right.link).toBeLessThanOrEqual(right.place + 0.5);
  await page.setViewportSize({ width: 1366, height: 768 });
});

test('a name such as USB-C stands on one line in a table, and is copied as it is written', async () => {
  const { page } = reviewed;
  await page.setViewportSize({ width: 900, height: 768 });
  await goToReview(reviewed);
  const names = page.locator('td span, th span').filter({ hasText: /^USB-C$/ });
  expect(await names.count()).toBeGreaterThan(0);
  const lines = await names.evaluateAll((all) => all.map((one) => one.getClientRects().length));
  expect(new Set(lines)).toEqual(new Set([1]));
  await page.setViewportSize({ width: 1366, height: 768 });
});

test('printed, a question, what is said to it and a table’s caption stay with what they head, in a flow that pages can break', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  await page.emulateMedia({ media: 'print' });
  const question = page.getByRole('heading', { name: 'Which repairs come back?' });
  const sentence = question.locator('xpath=following-sibling::p[1]');
  for (const head of [question, sentence, tableOf(page, BRANCHES).locator('caption')])
    await expect(head).toHaveCSS('break-after', 'avoid');
  for (const flow of [question.locator('..'), page.getByRole('region', { name: 'Comebacks' })])
    await expect(flow).toHaveCSS('display', 'block');
  await page.emulateMedia({ media: 'screen' });
});
