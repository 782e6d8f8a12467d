import { expect, test, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { act, NO_POWER_LED, openJob, record, sayWhoWorks, showJobs, trail } from './bench.ts';
import { newDatabase, openShop, type Shop } from './shop.ts';

async function begun(page: Page): Promise<Shop> {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await openJob(page, NO_POWER_LED);
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText('Cells and springs');
  return shop;
}

test('an answer is taken back and done again by keyboard', async ({ page }) => {
  const shop = await begun(page);
  await record(page, () => page.keyboard.press('1'));
  await expect(act(page)).toHaveText('Cells, at rest');
  await page.keyboard.press('Escape');
  await page.keyboard.press('Control+z');
  await expect(act(page)).toHaveText('Cells and springs');
  await page.keyboard.press('Control+Shift+Z');
  await expect(act(page)).toHaveText('Cells, at rest');
  await shop.stop();
});

test('a test is skipped for a reason and the course goes on as if it had given the result chosen', async ({
  page,
}) => {
  const shop = await begun(page);
  await page.keyboard.press('s');
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('textbox').fill('No light to see by');
  await dialog.getByRole('radio', { name: 'Go on as if it had given “Right way, bright”' }).check();
  await dialog.getByRole('button', { name: /^Skip/ }).click();
  await expect(act(page)).toHaveText('Cells, at rest');
  await expect(trail(page).first()).toContainText('No light to see by');
  await expect(trail(page).first()).toContainText('as Right way, bright');
  await shop.stop();
});

test('a test that cannot be made is left out, and the path met again at a later test turned to', async ({
  page,
}) => {
  const shop = await begun(page);
  await page.keyboard.press('s');
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('textbox').fill('No light to see by');
  await expect(dialog.getByRole('radio', { name: /^Leave it out/ })).toBeChecked();
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText('This test cannot be made');
  await expect(trail(page).first()).toContainText('cannot be made here');
  await expectNoViolation(page, 'a test that cannot be made');
  await page.keyboard.press('t');
  await dialog.getByRole('searchbox').or(dialog.getByRole('textbox')).first().fill('Cells, at rest');
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText('Cells, at rest');
  await page.keyboard.type('5.9');
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Supply to ground');
  await page.keyboard.press('Escape');
  await page.keyboard.press('x');
  await dialog.getByRole('radio', { name: 'Passed on' }).check();
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText(/Passed on/);
  await expect(page.getByText('Cells and springs: No light to see by (cannot be made here)')).toBeVisible();
  await shop.stop();
});

test('a test is made out of order, and the path is gone back to', async ({ page }) => {
  const shop = await begun(page);
  await page.keyboard.press('t');
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('searchbox').or(dialog.getByRole('textbox')).first().fill('Supply to ground');
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText('Supply to ground');
  await page.keyboard.type('4k7');
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText('Cells and springs');
  await shop.stop();
});

test('a mis-keyed answer is corrected and the course follows it', async ({ page }) => {
  const shop = await begun(page);
  await record(page, () => page.keyboard.press('3'));
  await expect(page.getByRole('button', { name: 'Start the remedy' })).toBeVisible();
  await page
    .getByRole('button', { name: /Correct/ })
    .first()
    .click();
  const dialog = page.getByRole('dialog');
  await dialog.getByText('Right way, bright').first().click();
  const confirm = dialog.getByRole('button', { name: /Correct|Record/ });
  if (await confirm.isVisible()) await confirm.click();
  await expect(act(page)).toHaveText('Cells, at rest');
  await shop.stop();
});

test('a reading that is none is refused with what to type, and one on a limit is too close to call', async ({
  page,
}) => {
  const shop = await begun(page);
  await record(page, () => page.keyboard.press('1'));
  await expect(act(page)).toHaveText('Cells, at rest');
  await page.keyboard.type('four volts');
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText('Cells, at rest');
  await expect(page.getByRole('textbox', { name: /reading/i })).toHaveValue('four volts');
  await expect(page.getByText(/4\.7|3V3|number/).first()).toBeVisible();
  await page.getByRole('textbox', { name: /reading/i }).fill('4.8');
  await expect(page.getByText(/too close to call/i).first()).toBeVisible();
  await shop.stop();
});

test('a unit is passed on with a note, and its job is found again among the closed ones', async ({
  page,
}) => {
  const shop = await begun(page);
  await page.keyboard.press('x');
  const dialog = page.getByRole('dialog');
  await dialog.getByText('Passed on', { exact: true }).first().click();
  await dialog.getByRole('textbox').first().fill('To the workshop with the hot-air station');
  await dialog
    .getByRole('button', { name: /^Close/ })
    .first()
    .click();
  await expect(act(page)).toHaveText(/Passed on/);
  await showJobs(page);
  await page.getByRole('searchbox', { name: 'Search jobs' }).fill('0042');
  await expect(page.getByRole('row', { name: /KW1-0042.*Passed on/ })).toBeVisible();
  await page.getByRole('searchbox', { name: 'Search jobs' }).fill('nobody has this serial');
  await expect(page.getByRole('row', { name: /KW1-0042/ })).toHaveCount(0);
  await shop.stop();
});

test('two jobs stand beside each other, and F6 gives the keys to the other', async ({ page }) => {
  const shop = await begun(page);
  await showJobs(page);
  await openJob(page, { ...NO_POWER_LED, serial: 'KW1-0099' });
  await page
    .getByRole('button', { name: /beside/i })
    .first()
    .click();
  const first = page.getByRole('region', { name: 'Job KW1-0042' });
  const second = page.getByRole('region', { name: 'Job KW1-0099' });
  await expect(first).toBeVisible();
  await expect(second).toHaveAttribute('aria-current', 'true');
  await page.keyboard.press('F6');
  await expect(first).toHaveAttribute('aria-current', 'true');
  await page.keyboard.press('Enter');
  await expect(first.locator('[data-act-title]')).toHaveText('Cells and springs');
  await expect(second.locator('[data-act-title]')).toHaveText('No power LED');
  await shop.stop();
});
