import { expect, test } from '@playwright/test';
import { act, record } from './bench.ts';
import { begun, measure, turnTo } from './repairs.ts';

test('opening the shell with power left on is warned of before the act, and power can be taken off first', async ({
  page,
}) => {
  const shop = await begun(page);
  await turnTo(page, 'Sound from the speaker');
  await measure(page, '4k7');
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Sound from the speaker');
  await record(page, () => page.keyboard.press('1'));
  await turnTo(page, 'Clock');
  await expect(act(page)).toHaveText(/^Shell: Open/);
  const warning = page.getByRole('note').filter({ hasText: 'Before this changeover' });
  await expect(warning).toContainText('Power: Bench supply');
  await record(page, () => warning.getByRole('button', { name: /^Done: Power, Off/ }).click());
  await expect(act(page)).toHaveText(/^Shell: Open/);
  await expect(warning).toBeHidden();
  await shop.stop();
});
