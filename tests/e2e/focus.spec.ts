import { expect, test } from '@playwright/test';
import { act, record } from './bench.ts';
import { begun, measure, turnTo } from './repairs.ts';

test('the focus is where the next answer goes, after an act in a dialog as after one without', async ({
  page,
}) => {
  const shop = await begun(page);
  await expect(act(page)).toBeFocused();
  await page.keyboard.press('s');
  await page.getByRole('dialog').getByRole('textbox', { name: 'Reason' }).fill('Door stuck');
  await page.getByRole('radio', { name: 'Go on as if it had given “Right way, bright”' }).check();
  await record(page, () => page.keyboard.press('Enter'));
  await expect(page.getByRole('textbox', { name: 'Reading' })).toBeFocused();
  await measure(page, '5.9');
  await expect(page.getByRole('textbox', { name: 'Reading' })).toBeFocused();
  await turnTo(page, 'Cells and springs');
  await expect(act(page)).toHaveText('Cells and springs');
  await expect(act(page)).toBeFocused();
  await shop.stop();
});

test('a dialog left without an act gives the focus back to the button that opened it', async ({ page }) => {
  const shop = await begun(page);
  const skip = page.getByRole('button', { name: 'Skip…' });
  await skip.click();
  await expect(page.getByRole('dialog').getByRole('textbox', { name: 'Reason' })).toBeFocused();
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog')).toBeHidden();
  await expect(skip).toBeFocused();
  await shop.stop();
});
