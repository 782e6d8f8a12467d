import { expect, test } from '@playwright/test';
import { act, record, trail } from './bench.ts';
import { begun, measure } from './repairs.ts';

test('an answer to a job that has gone on in another window is not recorded, and the job is read again', async ({
  page,
  context,
}) => {
  const shop = await begun(page);
  const other = await context.newPage();
  await other.goto(page.url());
  await expect(act(other)).toHaveText('No power LED');
  await other.keyboard.press('Enter');
  await expect(act(other)).toHaveText('Cells and springs');
  await record(page, () => page.keyboard.press('1'));
  await measure(page, '5.9');

  await other.bringToFront();
  await other.keyboard.press('3');
  await expect(other.getByText('This job has gone on somewhere else since you opened it')).toBeVisible();
  await expect(act(other)).toHaveText('Supply to ground');
  await expect(trail(other)).toHaveCount(2);
  await measure(other, 'OL');
  await page.bringToFront();
  await page.reload();
  await expect(trail(page)).toHaveCount(3);
  await shop.stop();
});
