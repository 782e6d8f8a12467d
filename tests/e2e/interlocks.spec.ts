import { expect, test } from '@playwright/test';
import { act, record, trail, walkTo } from './bench.ts';
import { begun, measure, turnTo } from './repairs.ts';

test('an interlock’s test is asked before power, and a result it does not allow bars the way', async ({
  page,
}) => {
  const shop = await begun(page);
  await turnTo(page, 'Sound from the speaker');
  await expect(act(page)).toHaveText('Supply to ground');
  await expect(page.getByText('Why first: A supply that reads as a wire never gets power')).toBeVisible();
  await expect(page.getByRole('button', { name: /^Skip/ })).toHaveCount(0);

  await measure(page, '2');
  await expect(act(page)).toHaveText(/stays barred$/);
  await expect(page.getByText('Supply to ground must give Clear; it gave Short.')).toBeVisible();
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText(/stays barred$/);
  await record(page, () => page.keyboard.press('b'));
  await expect(act(page)).toHaveText('Cells and springs');
  await shop.stop();
});

test('an answer corrected while power is on takes the power off before anything else', async ({ page }) => {
  const shop = await begun(page);
  await record(page, () => page.keyboard.press('1'));
  await measure(page, '5.9');
  await measure(page, '4k7');
  await walkTo(page, 'Record', {});
  await expect(act(page)).toHaveText('Current at first power');
  await page.getByRole('button', { name: 'Correct Supply to ground…' }).click();
  const dialog = page.getByRole('dialog');
  await expect(dialog.getByText('It stands as Clear')).toBeVisible();
  await dialog.getByRole('textbox', { name: /Reading/ }).fill('3');
  await record(page, () => page.keyboard.press('Enter'));

  await expect(act(page)).toHaveText(/^Power: Off/);
  await expect(page.getByText('Safety first')).toBeVisible();
  await record(page, () => page.keyboard.press('Enter'));
  await expect(trail(page).first()).toHaveText(/Power Off/);
  await expect(act(page)).not.toHaveText(/^Power/);
  await shop.stop();
});
