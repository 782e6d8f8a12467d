import { expect, test } from '@playwright/test';
import { act, NO_POWER_LED, openJob, record, sayWhoWorks, trail } from './bench.ts';
import { begun } from './repairs.ts';
import { newDatabase, openShop } from './shop.ts';

test('a job whose host is killed in the middle is there again with every recorded step, and goes on', async ({
  page,
}) => {
  const file = newDatabase();
  const first = await openShop(file);
  await page.goto(first.address);
  await sayWhoWorks(page, 'Mara');
  await openJob(page, NO_POWER_LED);
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText('Cells and springs');
  await record(page, () => page.keyboard.press('1'));
  await record(page, async () => {
    await page.keyboard.type('5.9');
    await page.keyboard.press('Enter');
  });
  const done = await trail(page).allTextContents();
  const title = await act(page).textContent();
  await first.kill();

  await page.keyboard.type('4k7');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('alert')).toContainText(/Ohmward/);
  await expect(page.getByRole('textbox', { name: /reading/i })).toHaveValue('4k7');

  const second = await openShop(file);
  await page.goto(second.address);
  await page
    .getByRole('link', { name: /KW1-0042/ })
    .first()
    .click();
  await expect(act(page)).toHaveText(title ?? '');
  expect(await trail(page).allTextContents()).toEqual(done);
  await page.keyboard.type('4k7');
  await record(page, () => page.keyboard.press('Enter'));
  await second.stop();
});

test('a window of the start before is told where to go on, and keeps what was typed', async ({ page }) => {
  const first = await begun(page);
  await record(page, () => page.keyboard.press('1'));
  await first.kill();
  const second = await openShop(first.file);
  await page.getByRole('textbox', { name: /reading/i }).fill('5.9');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('alert')).toContainText('Go on in the window that came with that start');
  await expect(page.getByRole('textbox', { name: /reading/i })).toHaveValue('5.9');
  await second.stop();
});
