import { expect, test } from '@playwright/test';
import { act, likely, record, trail, walkTo } from './bench.ts';
import { begun, measure } from './repairs.ts';

test('the USB-C charging board is walked to one finding, its cautions standing before the first test', async ({
  page,
}) => {
  const shop = await begun(page, {
    serial: 'C1-0007',
    reference: '',
    tree: 'Kittiwake KW-1, USB-C charging board',
    board: null,
    symptom: 'No charge LED',
  });
  await expect(act(page)).toHaveText('Receptacle, by eye');
  await walkTo(page, 'Record', { 'Receptacle, by eye': '1' });
  await expect(act(page)).toHaveText('CC through the plug');
  await expect(page.getByRole('note', { name: 'Caution: CC through the plug' })).toBeVisible();
  await measure(page, 'OL');
  await expect(act(page)).toHaveText('CC1 pull-down');
  await measure(page, '1M2');

  await expect(act(page)).toHaveText('CC1 pull-down open');
  await expect(page.getByRole('button', { name: 'Start the remedy' })).toBeInViewport({ ratio: 1 });
  await expect(likely(page, 'CC1 pull-down open')).toHaveText(/9\d\s%/);
  await expect(trail(page)).toHaveCount(4);
  await record(page, () => page.keyboard.press('Enter'));
  await expect(page.getByRole('note', { name: 'Caution: the remedy' })).toBeVisible();
  await shop.stop();
});
