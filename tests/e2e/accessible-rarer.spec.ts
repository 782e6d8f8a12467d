import { writeFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { act, record } from './bench.ts';
import { begun, fitFuse, measure, turnTo } from './repairs.ts';
import { newDatabase, openShop } from './shop.ts';

test('axe-core finds nothing where the way is barred, contradicted, proved wrong, or mended by something not in the tree', async ({
  page,
}) => {
  test.slow();
  const shop = await begun(page);
  await turnTo(page, 'Sound from the speaker');
  await expectNoViolation(page, 'an interlock’s test');
  await measure(page, '2');
  await expect(act(page)).toHaveText(/stays barred$/);
  await expectNoViolation(page, 'barred');
  await record(page, () => page.keyboard.press('Control+z'));
  await page.keyboard.press('Escape');
  await record(page, () => page.keyboard.press('b'));
  await record(page, () => page.keyboard.press('1'));
  await turnTo(page, 'Cells and springs');
  await record(page, () => page.keyboard.press('3'));
  await expect(page.getByText('The same test has given two different results')).toBeVisible();
  await expectNoViolation(page, 'a contradiction');
  await record(page, () => page.keyboard.press('1'));
  await fitFuse(page);
  await measure(page, 'OL');
  await expect(page.getByText('Proof failed')).toBeVisible();
  await expectNoViolation(page, 'a failed proof');
  await page.keyboard.press('Escape');
  await page.keyboard.press('f');
  const what = page.getByRole('dialog').getByRole('textbox', { name: 'Something not in this tree' });
  await what.fill('Wire torn');
  await record(page, () => page.keyboard.press('Enter'));
  await expectNoViolation(page, 'the remedy of something not in the tree');
  await shop.stop();
});

test('axe-core finds nothing where the records cannot be opened', async ({ page }) => {
  const file = newDatabase();
  writeFileSync(file, 'This is a letter, not a database.'.repeat(200));
  const shop = await openShop(file);
  await page.goto(shop.address);
  await expect(
    page.getByRole('heading', { name: 'The shop’s records cannot be opened', level: 1 }),
  ).toBeVisible();
  await expectNoViolation(page, 'records that cannot be opened');
  await shop.stop();
});
