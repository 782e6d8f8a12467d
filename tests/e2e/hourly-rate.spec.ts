import { expect, test, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { tabTo } from './bench.ts';
import { newDatabase, openShop } from './shop.ts';

async function enterRate(page: Page, typed: string): Promise<void> {
  await tabTo(page, 'textbox', 'Rate for an hour of work');
  await page.keyboard.press('Control+a');
  await page.keyboard.press('Delete');
  await page.keyboard.type(typed);
  await page.keyboard.press('Enter');
}

test('the hourly rate is entered by keyboard, refused where it is none, and kept', async ({ page }) => {
  const first = await openShop(newDatabase());
  await page.goto(first.address);
  await page.getByRole('link', { name: 'Shop' }).click();
  const part = page.getByRole('region', { name: 'Hourly rate' });
  const field = part.getByRole('textbox', { name: 'Rate for an hour of work' });
  await expect(field).toHaveValue('');
  await expect(part).toContainText('Empty: parts’ prices do not count in the planner’s minutes.');

  await enterRate(page, '1,200');
  await expect(part.getByRole('alert')).toHaveText(/without a comma between the thousands/);
  await expect(field).toHaveValue('1,200');
  await expectNoViolation(page, 'an hourly rate that is none');
  await enterRate(page, '45,50');
  await expect(part.getByRole('status')).toHaveText('Saved: 45.5 an hour.');
  await expect(part.getByRole('alert')).toBeHidden();
  await expectNoViolation(page, 'an hourly rate saved');
  await first.stop();

  const second = await openShop(first.file);
  await page.goto(second.address);
  await page.getByRole('link', { name: 'Shop' }).click();
  await expect(field).toHaveValue('45.5');
  await field.fill('');
  await part.getByRole('button', { name: 'Save the rate' }).click();
  await expect(part.getByRole('status')).toHaveText('Saved: parts’ prices do not count.');
  await page.reload();
  await expect(field).toHaveValue('');
  await second.stop();
});
