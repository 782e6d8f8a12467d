import { expect, test } from '@playwright/test';
import { act, record, trail, walkTo } from './bench.ts';
import { begun, FUSE_BLOWN, fitFuse, measure } from './repairs.ts';

test('a proof that fails is told, and the walk goes on where the finding says otherwise', async ({
  page,
}) => {
  const shop = await begun(page);
  await fitFuse(page);
  await measure(page, 'OL');
  await expect(page.getByRole('status').filter({ hasText: 'Proof failed' })).toHaveText(
    /The remedy for “Fuse F1 open”\s+did not mend the unit: “Fuse F1” gave Open/,
  );
  await walkTo(page, 'Record', {});
  await expect(act(page)).toHaveText('Supply to ground');
  await measure(page, 'OL');
  await expect(act(page)).toHaveText('Slide switch S1');
  await expect(page.getByText('Proof failed')).toHaveCount(0);
  await shop.stop();
});

test('a remedy left undone is offered again with the reason, and is not tried', async ({ page }) => {
  const shop = await begun(page);
  await walkTo(page, 'Start the remedy', FUSE_BLOWN);
  await record(page, () => page.keyboard.press('Enter'));
  await walkTo(page, 'Remedy done', {});
  await page.keyboard.press('g');
  await page.getByRole('dialog').getByRole('textbox', { name: 'Reason' }).fill('No fuse in stock');
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Fuse F1 open');
  await expect(page.getByText('Its remedy was left undone: No fuse in stock')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Start the remedy' })).toBeEnabled();
  await shop.stop();
});

test('something not in the tree is mended with the power off, and proved by the test that showed the fault', async ({
  page,
}) => {
  const shop = await begun(page);
  await walkTo(page, 'Dark', {
    'Cells and springs': '1',
    'Cells, at rest': '5.9',
    'Supply to ground': '4k7',
    'Current at first power': '150m',
  });
  await record(page, () => page.keyboard.press('2'));
  await expect(act(page)).toHaveText(/^Power: Off/);
  await page.keyboard.press('f');
  await page
    .getByRole('dialog')
    .getByRole('textbox', { name: 'Something not in this tree' })
    .fill('Wire to the LED torn');
  await record(page, () => page.keyboard.press('Enter'));

  await expect(act(page)).toHaveText('Wire to the LED torn');
  await expect(page.getByRole('note', { name: 'Caution: the remedy' })).toBeVisible();
  await page.getByRole('heading', { name: 'Wire to the LED torn' }).press('Enter');
  await expect(trail(page).first()).toHaveText(/Power Off: slide switch off, supply unplugged/);
  await expect(act(page)).toHaveText('Wire to the LED torn');
  await record(page, () => page.keyboard.press('Enter'));

  await walkTo(page, 'Close as fixed', { 'Supply to ground': '4k7', 'Power LED': '1' });
  await expect(act(page)).toHaveText('Wire to the LED torn');
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Fixed');
  await shop.stop();
});
