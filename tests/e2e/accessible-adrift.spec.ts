import { expect, test } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { act, NO_POWER_LED, openJob, record, showJobs, walkTo } from './bench.ts';
import { begun, measure } from './repairs.ts';

test('axe-core finds nothing off the path, in two panes, or in the dialogs that correct an answer and leave a remedy undone', async ({
  page,
}) => {
  test.slow();
  const shop = await begun(page);
  await record(page, () => page.keyboard.press('3'));
  await page
    .getByRole('button', { name: /^Correct/ })
    .first()
    .click();
  await expect(page.getByRole('dialog')).toBeVisible();
  await expectNoViolation(page, 'the dialog: correct');
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog')).toBeHidden();
  await record(page, () => page.getByRole('button', { name: 'Start the remedy' }).click());
  await walkTo(page, 'Remedy done', {});
  await page.keyboard.press('g');
  await expect(page.getByRole('dialog')).toBeVisible();
  await expectNoViolation(page, 'the dialog: leave undone');
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog')).toBeHidden();
  await record(page, () => page.getByRole('button', { name: 'Remedy done' }).click());
  await expect(act(page)).toHaveText('Battery springs');
  await measure(page, 'OL');
  if ((await act(page).textContent()) === 'Cells and springs')
    await record(page, () => page.keyboard.press('3'));
  await expect(act(page)).toHaveText('The path has no more to say');
  await expectNoViolation(page, 'off the path');
  await showJobs(page);
  await openJob(page, { ...NO_POWER_LED, serial: 'KW1-0099' });
  await page
    .getByRole('button', { name: /beside/i })
    .first()
    .click();
  await expect(page.getByRole('region', { name: 'Job KW1-0042' })).toBeVisible();
  await expect(page.getByRole('region', { name: 'Job KW1-0099' })).toBeVisible();
  await expectNoViolation(page, 'two panes');
  await shop.stop();
});
