import { expect, test, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { sayWhoWorks } from './bench.ts';
import { lineAt } from './by-keyboard.ts';
import { newDatabase, openShop, type Shop } from './shop.ts';
import { drawing, form } from './turnstone.ts';

const PANEL = 'Kittiwake KW-1, refitted panel';

let shop: Shop;

test.beforeEach(async ({ page }) => {
  shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
});

test.afterEach(() => shop.stop());

const edit = (page: Page) => page.getByRole('button', { name: `Edit ${PANEL}` }).click();
const stepOne = (page: Page) => drawing(page).getByRole('group', { name: /^Step 1,/ });
const paste = (page: Page) => page.getByRole('button', { name: 'Paste', exact: true });

/** How many lines the buttons of a bar stand in. */
async function linesOf(page: Page, role: 'toolbar' | 'group', name: string): Promise<number> {
  const buttons = page.getByRole(role, { name, exact: true }).getByRole('button');
  const middles = await buttons.evaluateAll((all) =>
    all.map((one) => {
      const { top, height } = one.getBoundingClientRect();
      return Math.round((top + height / 2) / 10);
    }),
  );
  return new Set(middles).size;
}

for (const [width, height] of [
  [1366, 768],
  [1920, 1080],
] as const) {
  test(`the bars stand in one line whatever is chosen, at ${String(width)} pixels`, async ({ page }) => {
    await page.setViewportSize({ width, height });
    await edit(page);
    await stepOne(page).click({ position: { x: 60, y: 12 } });
    await page.keyboard.press('Control+c');
    await expect(paste(page)).toBeVisible();
    expect(await linesOf(page, 'toolbar', 'Draft')).toBe(1);
    expect(await linesOf(page, 'toolbar', 'Outline')).toBe(1);
    expect(await linesOf(page, 'group', 'What is chosen in the drawing')).toBe(1);
    await drawing(page)
      .getByRole('button', { name: /^Step 1, / })
      .first()
      .click();
    expect(await linesOf(page, 'group', 'What is chosen in the drawing')).toBe(1);
    await page.getByRole('tree').focus();
    await page.keyboard.press('End');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('End');
    await expect(page.getByRole('button', { name: 'Add an interlock…' })).toBeVisible();
    expect(await linesOf(page, 'toolbar', 'Outline')).toBe(1);
  });
}

test('pasting is offered once something was copied, in this window or another', async ({ page, context }) => {
  await edit(page);
  await stepOne(page).click({ position: { x: 60, y: 12 } });
  await expect(page.getByRole('button', { name: 'Copy', exact: true })).toBeVisible();
  await expect(paste(page)).toHaveCount(0);
  const other = await context.newPage();
  await other.goto(page.url());
  await expect(paste(other)).toHaveCount(0);
  await page.getByRole('button', { name: 'Copy', exact: true }).click();
  await expect(paste(page)).toBeVisible();
  await expect(paste(other)).toBeVisible();
});

test('what the outline’s bar has no room for is come to and left by keyboard', async ({ page }) => {
  await edit(page);
  const tree = page.getByRole('tree');
  await tree.focus();
  await page.keyboard.press('Home');
  for (let presses = 0; presses < 2; presses += 1) await page.keyboard.press('ArrowDown');
  const first = await lineAt(page);
  const more = page.getByRole('toolbar', { name: 'Outline' }).getByRole('button', { name: /^More/ });
  await page.keyboard.press('Shift+Tab');
  await expect(more).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Duplicate' }).first()).toBeFocused();
  await expectNoViolation(page, 'more of the outline’s acts');
  await page.keyboard.press('Escape');
  await expect(more).toBeFocused();
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Tab');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: 'Move down' })).toBeFocused();
  await tree.focus();
  await page.keyboard.press('Home');
  for (let presses = 0; presses < 3; presses += 1) await page.keyboard.press('ArrowDown');
  expect(await lineAt(page)).toBe(first);
});

test('the first symptom added in the drawing has the keys in its form', async ({ page }) => {
  await page.getByRole('button', { name: 'New tree' }).click();
  await page.getByLabel('Title').fill('Plover PL-2');
  await page.getByLabel('Family of units').fill('Plover PL-2');
  await page.getByRole('button', { name: 'Begin the draft' }).click();
  await page.locator('[data-pane="middle"]').getByRole('button', { name: 'Add a symptom…' }).click();
  await page.keyboard.type('No sound');
  await page.keyboard.press('Enter');
  const title = form(page).getByRole('textbox', { name: 'Title' });
  await expect(title).toHaveValue('No sound');
  await expect(title).toBeFocused();
});

test('the drawing of what differs begins at the first difference', async ({ page }) => {
  await edit(page);
  await page.getByRole('button', { name: 'Find', exact: true }).click();
  await page.getByRole('searchbox').fill('3.3 V rail');
  await page.getByRole('button', { name: /^3\.3 V rail\s+test$/ }).click();
  await form(page).getByRole('textbox', { name: 'Minutes' }).fill('7');
  await page.keyboard.press('Tab');
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await page.getByRole('button', { name: 'Compare' }).click();
  await page.getByRole('button', { name: 'In the drawing' }).click();
  await expect(page.getByRole('button', { name: /^Next marked \(at 1 of \d+\)/ })).toBeVisible();
  await expect(
    drawing(page)
      .getByRole('group', { name: /3\.3 V rail/ })
      .first(),
  ).toBeInViewport({ ratio: 1 });
});
