import { expect, test, type Locator, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { sayWhoWorks } from './bench.ts';
import { newDatabase, openShop } from './shop.ts';
import { drawing, form } from './turnstone.ts';

const fold = (page: Page, name: string): Locator =>
  page.locator('[data-pane="middle"]').getByRole('button', { name, exact: true });

const width = async (page: Page): Promise<number> => (await drawing(page).boundingBox())?.width ?? 0;

test('the outline and the form are folded away by a button and a key, to give the drawing their room, and come back for what is in them', async ({
  page,
}) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await page.getByRole('button', { name: 'Edit Kittiwake KW-1, refitted panel' }).click();
  await expect(drawing(page).getByRole('group', { name: /^Step 1, / })).toBeVisible();
  const before = await width(page);

  await fold(page, 'Outline').click();
  await expect(fold(page, 'Outline')).toHaveAttribute('aria-expanded', 'false');
  await expect(page.getByRole('tree')).toBeHidden();
  expect(await width(page)).toBeGreaterThan(before + 200);

  // By its key from within: the keys are not lost with it.
  await form(page).getByRole('textbox').first().focus();
  await page.keyboard.press('F9');
  await expect(form(page)).toBeHidden();
  await expect(fold(page, 'Form')).toBeFocused();
  await expect(fold(page, 'Form')).toHaveAttribute('aria-expanded', 'false');
  expect(await width(page)).toBeGreaterThan(1200);
  await expectNoViolation(page, 'the editor with its panes folded');

  // It stays so while the window is open; to go into the form unfolds it.
  await page.getByRole('link', { name: 'Trees' }).last().click();
  await page
    .getByRole('button', { name: /^Go on with|^Edit Kittiwake KW-1, refitted panel/ })
    .first()
    .click();
  await expect(drawing(page)).toBeVisible();
  await expect(form(page)).toBeHidden();
  await drawing(page)
    .getByRole('group', { name: /^Step 1, / })
    .click({ position: { x: 20, y: 20 } });
  await page.keyboard.press('Enter');
  await expect(form(page)).toBeVisible();
  await expect(form(page).locator(':focus')).toHaveCount(1);
  await page.keyboard.press('F8');
  await expect(page.getByRole('tree')).toBeVisible();
  await shop.stop();
});
