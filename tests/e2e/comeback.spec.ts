import { expect, test } from '@playwright/test';
import { showJobs } from './bench.ts';
import { begun, fitFuse, proveFuse } from './repairs.ts';

test('a unit that was fixed and is back is told while its serial is typed, with what was found then', async ({
  page,
}) => {
  const shop = await begun(page);
  await fitFuse(page);
  await proveFuse(page);
  await showJobs(page);
  await page.keyboard.press('n');
  const before = page.getByRole('status', { name: 'Earlier visits of this unit' });
  await page.getByRole('textbox', { name: 'Serial' }).fill('KW1-004');
  await expect(before).toHaveCount(0);
  await page.getByRole('textbox', { name: 'Serial' }).fill('KW1-0042');
  await expect(before).toContainText('No power LED. Fixed, finding: Fuse F1 open.');
  await expect(before).toContainText('It was fixed and is back');
  await before.getByRole('link').click();
  await expect(page.getByRole('region', { name: 'Job KW1-0042' })).toBeVisible();
  await shop.stop();
});
