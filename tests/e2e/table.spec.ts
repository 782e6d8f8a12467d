import { expect, test, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { sayWhoWorks } from './bench.ts';
import { newDatabase, openShop } from './shop.ts';

const grid = (page: Page) => page.getByRole('grid', { name: 'What each finding makes each test give' });
const cell = (page: Page, name: RegExp | string) => grid(page).getByRole('gridcell', { name });

async function addBy(page: Page, button: string, names: readonly string[]): Promise<void> {
  for (const name of names) {
    await page.getByRole('button', { name: button }).first().click();
    await page.getByRole('dialog').getByRole('textbox').fill(name);
    await page.getByRole('dialog').getByRole('button', { name: 'Add', exact: true }).click();
    await expect(page.getByRole('dialog')).toBeHidden();
  }
}

test('a tree is written as a table alone, and the planner orders its tests into a path', async ({ page }) => {
  test.setTimeout(120_000);
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await page.getByRole('button', { name: 'New tree' }).click();
  await page.getByLabel('Title').fill('Dunlin link lead');
  await page.getByLabel('Family of units').fill('Dunlin');
  await page.getByRole('button', { name: 'Begin the draft' }).click();
  await addBy(page, 'Add a symptom…', ['No link']);
  await page.getByRole('button', { name: 'Table', exact: true }).click();
  await addBy(page, 'Add a finding…', ['Plug bent', 'Core broken', 'Shield open']);
  await addBy(page, 'Add a test…', ['Plug by eye', 'Continuity of the core']);

  // Row by row, each cell by the number of its result: Plug bent shows at the first test, Core broken at the second.
  await grid(page).focus();
  await page.keyboard.press('Control+Home');
  for (const keys of [
    ['2', '1'],
    ['1', '2'],
    ['1', '1'],
  ]) {
    for (const key of keys) {
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press(key);
    }
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Home');
  }
  await expect(cell(page, 'Not so')).toHaveCount(2);
  await expect(cell(page, 'As it should be')).toHaveCount(4);
  await expectNoViolation(page, 'the table', '[aria-label="Table"]');

  // Shares, in the cell’s own dialog; undone, the cell is as it was.
  await page.keyboard.press('Control+Home');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  const dialog = page.getByRole('dialog', { name: 'Plug bent' });
  await dialog.getByRole('combobox').selectOption('In shares');
  await dialog.getByRole('textbox', { name: 'Not so' }).fill('90');
  await dialog.getByRole('textbox', { name: 'As it should be' }).fill('10');
  await dialog.getByRole('button', { name: 'Done' }).click();
  await expect(cell(page, 'As it should be 10 %, Not so 90 %')).toBeVisible();
  await expect(grid(page)).toBeFocused();

  // What each finding is expected to be of, as without a path the branches say nothing.
  for (const weight of ['6', '3', '1']) {
    await page.keyboard.press('Home');
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').getByRole('textbox').fill(weight);
    await page.getByRole('dialog').getByRole('button', { name: 'Done' }).click();
    await expect(cell(page, new RegExp(`weight ${weight}$`))).toBeVisible();
    await page.keyboard.press('ArrowDown');
  }
  await expect(cell(page, '60 %, weight 6')).toBeVisible();

  await page.getByRole('button', { name: 'Have the planner order the tests…' }).click();
  await page.getByRole('button', { name: 'Look for a better order' }).click();
  await page.getByRole('button', { name: 'Take it whole' }).click();
  await page.getByRole('button', { name: 'Drawing', exact: true }).click();
  const drawing = page.getByRole('application', { name: /^Drawing of the path of/ });
  await expect(drawing.getByRole('group', { name: /^Step 1, Plug by eye/ })).toBeVisible();

  // The path is drawn, and the table says what it said.
  await page.getByRole('button', { name: 'Table', exact: true }).click();
  await expect(cell(page, 'As it should be 10 %, Not so 90 %')).toBeVisible();
  await shop.stop();
});

test('the first weight in the table leaves the other findings their shares beside each other, and is undone in one step', async ({
  page,
}) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await page.getByRole('button', { name: /^Edit Kittiwake KW-1, refitted panel/ }).click();
  await page.getByRole('button', { name: 'Table', exact: true }).click();
  const shares = page.getByRole('gridcell', { name: /^\d+(\.\d+)? %,/ });
  const before = await shares.evaluateAll((cells) => cells.map((one) => one.getAttribute('aria-label')));
  expect(before.length).toBeGreaterThan(3);

  await grid(page).focus();
  await page.keyboard.press('Control+Home');
  await page.keyboard.press('Enter');
  const dialog = page.getByRole('dialog');
  await expect(dialog).toContainText('every other finding is given the one that it has by the branches');
  await dialog.getByRole('textbox').fill('5');
  await expectNoViolation(page, 'a weight in the table');
  await dialog.getByRole('button', { name: 'Done' }).click();
  await expect(cell(page, /weight 5$/)).toHaveCount(1);
  const after = await shares.evaluateAll((cells) => cells.map((one) => one.getAttribute('aria-label') ?? ''));
  const expected = (label: string | null): boolean => (label ?? '').startsWith('0 %');
  expect(after.map(expected)).toEqual(before.map(expected));
  await page.getByRole('button', { name: 'Undo', exact: true }).click();
  await expect(cell(page, /weight/)).toHaveCount(0);
  expect(await shares.evaluateAll((cells) => cells.map((one) => one.getAttribute('aria-label')))).toEqual(
    before,
  );
  await shop.stop();
});
