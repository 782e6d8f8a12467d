import { expect, test } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { act, NO_POWER_LED, openJob, record, sayWhoWorks, showJobs, walkTo } from './bench.ts';
import { newDatabase, openShop } from './shop.ts';

test('axe-core finds nothing on any screen, in both themes', async ({ page }) => {
  test.slow();
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await expect(page.getByRole('heading', { name: 'Jobs', level: 1 })).toBeVisible();
  await expectNoViolation(page, 'the empty list');
  await sayWhoWorks(page, 'Mara');
  await page.getByRole('link', { name: 'Shop' }).click();
  await expect(page.getByRole('heading', { name: 'Shop', level: 1 })).toBeVisible();
  await expectNoViolation(page, 'the shop');
  await page.getByRole('link', { name: 'Bench' }).click();
  await page.getByRole('link', { name: 'New job' }).first().click();
  await expect(page.getByRole('heading', { name: 'New job', level: 1 })).toBeVisible();
  await expectNoViolation(page, 'the new job');
  await showJobs(page);
  await openJob(page, NO_POWER_LED);
  await expectNoViolation(page, 'the start of a job');
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText('Cells and springs');
  await expectNoViolation(page, 'a chosen answer');
  for (const [key, dialog] of [
    ['s', 'skip'],
    ['t', 'another test'],
    ['f', 'another finding'],
    ['x', 'close'],
    ['c', 'cautions'],
    ['p', 'picture'],
    ['?', 'keys'],
  ] as const) {
    await page.keyboard.press(key);
    await expect(page.getByRole('dialog')).toBeVisible();
    await expectNoViolation(page, `the dialog: ${dialog}`);
    await page.keyboard.press('Escape');
    await expect(page.getByRole('dialog')).toBeHidden();
  }
  await record(page, () => page.keyboard.press('1'));
  await page.keyboard.type('4.8');
  await expectNoViolation(page, 'a reading too close to call');
  await page.getByRole('textbox', { name: /reading/i }).fill('5.9');
  await record(page, () => page.keyboard.press('Enter'));
  await page.keyboard.type('OL');
  await record(page, () => page.keyboard.press('Enter'));
  await expectNoViolation(page, 'a changeover');
  await walkTo(page, 'Start the remedy', { 'Fuse F1': 'OL' });
  await expectNoViolation(page, 'a finding');
  await record(page, () => page.keyboard.press('Enter'));
  await expectNoViolation(page, 'a remedy');
  await record(page, () => page.keyboard.press('Enter'));
  await expectNoViolation(page, 'a proof');
  await walkTo(page, 'Close as fixed', {
    'Fuse F1': '0.2',
    'Supply to ground': '4k7',
    '5 V rail to ground': '1k2',
    'Current at first power': '150m',
    'Power LED': '1',
  });
  await expectNoViolation(page, 'mended');
  await record(page, () => page.keyboard.press('Enter'));
  await expectNoViolation(page, 'a closed job');
  await page.getByRole('link', { name: 'Job sheet' }).first().click();
  await expect(page.getByRole('heading', { name: 'Job sheet' })).toBeVisible();
  await expectNoViolation(page, 'the job sheet');
  await showJobs(page);
  await expect(page.getByRole('row', { name: /KW1-0042/ })).toBeVisible();
  await expectNoViolation(page, 'the list');
  await shop.stop();
});
