import { expect, test, type Locator, type Page } from '@playwright/test';
import { sayWhoWorks } from './bench.ts';
import { newDatabase, openShop, type Shop } from './shop.ts';
import { drawing, form, way } from './turnstone.ts';

/** What was made, or is gone on with, is in sight and has the keys. */
const PANEL = 'Kittiwake KW-1, refitted panel';
let shop: Shop;

test.beforeEach(async ({ page }) => {
  shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await page.getByRole('button', { name: `Edit ${PANEL}` }).click();
  await page.getByRole('combobox', { name: 'Path of' }).selectOption('No power LED');
  await expect(box(page, /^Step 1, Cells and springs/)).toBeVisible();
});

test.afterEach(() => shop.stop());

const box = (page: Page, name: RegExp): Locator => drawing(page).getByRole('group', { name });
const checks = (page: Page): Locator => page.getByRole('region', { name: 'Checks' });

/** Chooses a branch of step 1 and takes its end away. */
async function unlink(page: Page, result: string): Promise<void> {
  await way(page, new RegExp(`^Step 1, .+, ${result}`)).click();
  await page.getByRole('button', { name: 'Unlink' }).click();
  await expect(way(page, new RegExp(`^Step 1, .+, ${result} leads to nothing yet`))).toBeVisible();
}

/** The middle of what an open way out shows below its title. */
async function clickOpen(page: Page, result: string): Promise<void> {
  const open = way(page, new RegExp(`^Step 1, .+, ${result} leads to nothing yet`))
    .locator('xpath=..')
    .locator('[data-adds]');
  const at = await open.boundingBox();
  if (at === null) throw new Error('The way out does not show that it is open.');
  await page.mouse.click(at.x + at.width / 2, at.y + at.height / 2);
}

/** Types a name into the dialog that asks where a branch leads, and takes the new test or finding of that name. */
async function makeNew(page: Page, kind: string, name: string): Promise<void> {
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('searchbox').fill(name);
  await dialog.getByRole('button', { name: new RegExp(`^Make a new ${kind} called “${name}”`) }).click();
  await expect(dialog).toBeHidden();
}

async function expectWhole(page: Page, name: RegExp): Promise<void> {
  await expect(drawing(page)).toHaveAttribute('data-laid', 'true');
  await expect(box(page, name)).toBeInViewport({ ratio: 1 });
  const [inner, outer] = [await box(page, name).boundingBox(), await drawing(page).boundingBox()];
  if (inner === null || outer === null) throw new Error('not in sight');
  expect(inner.x).toBeGreaterThanOrEqual(outer.x);
  expect(inner.y).toBeGreaterThanOrEqual(outer.y);
  expect(inner.x + inner.width).toBeLessThanOrEqual(outer.x + outer.width);
  expect(inner.y + inner.height).toBeLessThanOrEqual(outer.y + outer.height);
}

test('a step or finding just added is in the drawing’s view, whole, and has the keys', async ({ page }) => {
  for (let times = 0; times < 2; times += 1)
    await page
      .getByRole('group', { name: 'View of the drawing' })
      .getByRole('button', { name: 'Zoom in' })
      .click();
  await unlink(page, 'Cell reversed');
  await page.getByRole('button', { name: 'Add here' }).click();
  await makeNew(page, 'finding', 'Cap cracked');
  await expectWhole(page, /^Finding, Cap cracked/);
  await expect(box(page, /^Finding, Cap cracked/)).toBeFocused();

  await unlink(page, 'Springs crusted');
  await page.keyboard.press('+');
  await makeNew(page, 'test', 'Spring by touch');
  await expectWhole(page, /^Step \d+, Spring by touch/);
  await expect(box(page, /^Step \d+, Spring by touch/)).toBeFocused();
});

test('one click on the + of an open way out asks where it leads; beside it, it is chosen', async ({
  page,
}) => {
  await unlink(page, 'Cell reversed');
  await box(page, /^Step 1/).click({ position: { x: 20, y: 20 } });
  await clickOpen(page, 'Cell reversed');
  await expect(page.getByRole('dialog', { name: /where does “Cell reversed” lead/ })).toBeVisible();
  await page.keyboard.press('Escape');
  await way(page, /^Step 1, .+, Cell reversed leads to nothing yet/).click({ position: { x: 20, y: 8 } });
  await expect(page.getByRole('button', { name: 'Add here' })).toBeVisible();
  await expect(page.getByRole('dialog')).toBeHidden();
});

test('a form is seen from its head on, with the keys in it where a link in a form led there', async ({
  page,
}) => {
  await box(page, /^Finding, Cell reversed/).click();
  await expect(form(page).getByRole('heading', { level: 2 })).toHaveText('Cell reversed');
  await form(page).evaluate((element) => (element.scrollTop = element.scrollHeight));
  expect(await form(page).evaluate((element) => element.scrollTop)).toBeGreaterThan(100);
  await box(page, /^Step 1/).click({ position: { x: 20, y: 20 } });
  await expect(form(page).getByRole('heading', { level: 2 })).toContainText('Step 1');
  expect(await form(page).evaluate((element) => element.scrollTop)).toBe(0);
  await form(page).getByRole('button', { name: 'Cells and springs', exact: true }).click();
  const title = form(page).getByRole('textbox', { name: 'Title', exact: true });
  await expect(title).toBeFocused();

  // An edit of the same part leaves what is seen where it is.
  await form(page).evaluate((element) => (element.scrollTop = 120));
  await page.keyboard.press('Control+a');
  await page.keyboard.type('Cells, springs');
  await expect(form(page).getByRole('heading', { level: 2 })).toHaveText('Cells, springs');
  await form(page).evaluate((element) => (element.scrollTop = 120));
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(form(page).getByRole('heading', { level: 2 })).toHaveText('Cells and springs');
  expect(await form(page).evaluate((element) => element.scrollTop)).toBe(120);

  // One result after another is typed.
  const another = form(page).getByRole('textbox', { name: 'Another result' });
  await another.fill('Spring missing');
  await form(page).getByRole('button', { name: 'Add', exact: true }).click();
  await expect(another).toBeFocused();
  await expect(another).toHaveValue('');
});

test('after a mend the keys are at the next thing in the checks', async ({ page }) => {
  await form(page).getByRole('button', { name: 'The tree itself' }).click();
  for (const place of [3, 4]) {
    await form(page).getByRole('button', { name: 'Add board' }).click();
    await form(page)
      .getByRole('textbox', { name: `Board ${String(place)}` })
      .fill('A2');
  }
  const mends = checks(page)
    .getByRole('listitem')
    .getByRole('button')
    .filter({ hasNotText: 'Go to' })
    .filter({ hasText: 'A2' });
  await expect(mends).toHaveCount(2);
  await mends.first().click();
  await expect(mends).toHaveCount(1);
  await expect(mends).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(checks(page).getByRole('status')).toContainText('Nothing to mend');
  await expect(checks(page).getByRole('status')).toBeFocused();
});

test('on a heading of the outline nothing is deleted, and that is said', async ({ page }) => {
  await page.getByRole('tree').focus();
  for (const key of ['Home', 'ArrowDown', 'ArrowDown']) await page.keyboard.press(key);
  await expect(
    page.getByRole('toolbar', { name: 'Outline' }).getByRole('button', { name: 'Delete…' }),
  ).toBeVisible();
  await page.keyboard.press('ArrowUp');
  await expect(
    page.getByRole('toolbar', { name: 'Outline' }).getByRole('button', { name: 'Delete…' }),
  ).toBeHidden();
  await page.keyboard.press('Delete');
  await expect(page.getByRole('dialog')).toBeHidden();
  await expect(
    page
      .getByRole('main')
      .getByText('“Symptoms and their paths” is a heading: there is nothing to delete here'),
  ).toBeVisible();
  await page.keyboard.press('ArrowDown');
  await expect(page.getByRole('main').getByText('is a heading')).toBeHidden();
});

test('a step is moved up on its path by a key and taken back, and where it cannot be, that is said', async ({
  page,
}) => {
  const tree = page.getByRole('tree');
  await box(page, /^Step 1/).click({ position: { x: 20, y: 20 } });
  await tree.focus();
  await page.keyboard.press('Alt+ArrowUp');
  await expect(page.getByRole('main').getByText(/is not moved up: the path starts with it/)).toBeVisible();
  await page.getByRole('button', { name: /^More: what else/ }).click();
  await expect(page.getByRole('button', { name: 'Move up' })).toHaveAttribute('aria-disabled', 'true');
  await page.keyboard.press('Escape');

  // A step that is come to by one branch changes places with the step that leads to it.
  await unlink(page, 'Cell reversed');
  await page.getByRole('button', { name: 'Add here' }).click();
  await makeNew(page, 'test', 'Spring by touch');
  await tree.focus();
  await page.keyboard.press('Alt+ArrowUp');
  await expect(box(page, /^Step 1, Spring by touch/)).toBeVisible();
  await expect(way(page, /^Step 2, Cells and springs, Cell reversed leads to nothing yet/)).toBeVisible();
  await page.keyboard.press('Control+z');
  await expect(box(page, /^Step 1, Cells and springs/)).toBeVisible();
});
