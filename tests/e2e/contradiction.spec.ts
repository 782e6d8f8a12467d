import { expect, test } from '@playwright/test';
import { act, record, trail } from './bench.ts';
import { begun, turnTo } from './repairs.ts';

test('a test that gives another result is settled by number key, and the sheet says which answer stands', async ({
  page,
}) => {
  const shop = await begun(page);
  await record(page, () => page.keyboard.press('1'));
  await turnTo(page, 'Cells and springs');
  await record(page, () => page.keyboard.press('3'));
  await expect(page.getByText('The same test has given two different results')).toBeVisible();
  await expect(page.getByRole('list', { name: 'Answers' }).getByRole('button')).toHaveText([
    /Right way, bright/,
    /Springs crusted/,
    /Neither/,
  ]);
  await record(page, () => page.keyboard.press('1'));
  await expect(act(page)).toHaveText('Cells, at rest');
  await expect(trail(page).first()).toHaveText(/contradiction settled Right way, bright stands/);

  await page.getByRole('link', { name: 'Job sheet' }).click();
  const rows = page.getByRole('row', { name: /Cells and springs/ });
  await expect(rows).toHaveText([/Right way, bright$/, /Springs crusted, did not stand$/]);
  await shop.stop();
});

test('where neither answer stands the test is asked again', async ({ page }) => {
  const shop = await begun(page);
  await record(page, () => page.keyboard.press('1'));
  await turnTo(page, 'Cells and springs');
  await record(page, () => page.keyboard.press('3'));
  await record(page, () => page.keyboard.press('3'));
  await expect(act(page)).toHaveText('Cells and springs');
  await expect(page.getByText('On the path for')).toBeVisible();
  await shop.stop();
});
