import { expect, test, type Locator, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { sayWhoWorks } from './bench.ts';
import { newDatabase, openShop, type Shop } from './shop.ts';

const PANEL = 'Kittiwake KW-1, refitted panel';

const drawing = (page: Page): Locator => page.getByRole('application', { name: /^Drawing of the path of/ });
const box = (page: Page, name: RegExp): Locator => drawing(page).getByRole('group', { name });
/** A way out of a step, by what it is announced as. */
const way = (page: Page, name: RegExp): Locator => drawing(page).getByRole('button', { name });

async function openDrawing(page: Page): Promise<Shop> {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await page.getByRole('button', { name: `Edit ${PANEL}` }).click();
  await page.getByRole('combobox', { name: 'Path of' }).selectOption('No power LED');
  await expect(drawing(page)).toBeVisible();
  await expect(box(page, /^Step 1, Cells and springs/)).toBeVisible();
  return shop;
}

const focused = (page: Page): Promise<string | null> =>
  page.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? null);

test('a path is gone along and led elsewhere by keyboard alone', async ({ page }) => {
  const shop = await openDrawing(page);
  await box(page, /^Start, No power LED/).focus();
  await page.keyboard.press('Home');
  await page.keyboard.press('ArrowDown');
  await expect.poll(() => focused(page)).toMatch(/^Step 1, Cells and springs/);
  await page.keyboard.press('ArrowDown');
  await expect
    .poll(() => focused(page))
    .toMatch(/^Step 1, .+, Right way, bright to step 2, Cells, at rest, \d+.% of units/);
  await page.keyboard.press('ArrowRight');
  await expect.poll(() => focused(page)).toMatch(/^Step 1, .+, Cell reversed to finding Cell reversed/);

  // Unlinked by a key, it is a loose end; undone, it leads where it led.
  await page.keyboard.press('Delete');
  await expect.poll(() => focused(page)).toMatch(/, Cell reversed leads to nothing yet/);
  await page.keyboard.press('Control+z');
  await expect(way(page, /, Cell reversed to finding Cell reversed/)).toBeVisible();

  // Led to the next step by its keys alone.
  await page.keyboard.press('l');
  await expect(page.getByText('Choose where “Cell reversed” of step 1')).toBeVisible();
  await page.keyboard.press('ArrowLeft');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await expect.poll(() => focused(page)).toMatch(/^Step 1, .+, Cell reversed to step 2, Cells, at rest/);

  // Enter asks where it leads, with all there is to lead to.
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog', { name: /where does “Cell reversed” lead/ })).toBeVisible();
  await page.keyboard.press('Escape');
  await shop.stop();
});

test('a path is edited with the mouse: branches drawn, ends dragged, boxes chosen together and deleted', async ({
  page,
}) => {
  const shop = await openDrawing(page);
  await drag(page, way(page, /^Step 1, .+, Springs crusted/), box(page, /^Step 2/));
  await expect(way(page, /^Step 1, .+, Springs crusted to step 2/)).toBeVisible();

  // The end of the branch that is chosen is a handle.
  await way(page, /^Step 1, .+, Springs crusted/).click();
  await drag(page, page.locator('.svelte-flow__edgeupdater'), box(page, /^Finding, Cell reversed/));
  await expect(way(page, /^Step 1, .+, Springs crusted to finding Cell reversed/)).toBeVisible();

  // Every gesture has its button.
  await page.getByRole('button', { name: 'Unlink' }).click();
  await expect(way(page, /^Step 1, .+, Springs crusted leads to nothing yet/)).toBeVisible();
  await page.getByRole('button', { name: 'Lead to', exact: true }).click();
  await box(page, /^Step 2/).click();
  await expect(way(page, /^Step 1, .+, Springs crusted to step 2/)).toBeVisible();

  await box(page, /^Step 2/).click();
  await box(page, /^Finding, Cell reversed/).click({ modifiers: ['Shift'] });
  await expect(page.getByText('2 chosen')).toBeVisible();
  await page.keyboard.press('Delete');
  const dialog = page.getByRole('dialog');
  await expect(dialog).toContainText('Delete step 2, Cells, at rest and 1 more?');
  await expect(dialog).toContainText('go or change too');
  await page.keyboard.press('Escape');
  await expect(box(page, /^Step 2/)).toBeVisible();
  await shop.stop();
});

test('what was edited stands where it stood on the screen when the path is laid out again', async ({
  page,
}) => {
  const shop = await openDrawing(page);
  const step = box(page, /^Step 1/);
  await way(page, /^Step 1, .+, Springs crusted/).click();
  const before = await step.boundingBox();
  await page.getByRole('button', { name: 'Unlink' }).click();
  await expect(way(page, /^Step 1, .+, Springs crusted leads to nothing yet/)).toBeVisible();
  await expect.poll(async () => (await step.boundingBox())?.x).toBeCloseTo(before?.x ?? 0, 0);
  await expect.poll(async () => (await step.boundingBox())?.y).toBeCloseTo(before?.y ?? 0, 0);
  await shop.stop();
});

test('the drawing goes with the workspace from path to path and from place to place', async ({ page }) => {
  const shop = await openDrawing(page);
  await page.getByRole('combobox', { name: 'Path of' }).selectOption('Dark screen');
  await expect(box(page, /^Start, Dark screen/)).toBeInViewport();
  await expect(box(page, /^Step 1, /)).toBeInViewport();
  await expect(page.getByText('Nothing chosen')).toBeHidden();

  // A place selected elsewhere is brought into sight and is where the keys go on from.
  await page.getByRole('combobox', { name: 'Path of' }).selectOption('No power LED');
  await way(page, /^Step 1, .+, Springs crusted/).click();
  await page.getByRole('treeitem', { name: /^20 Slide switch S1/ }).click();
  await expect(box(page, /^Step 20, Slide switch S1/)).toBeInViewport();
  await expect(box(page, /^Step 20, Slide switch S1/)).toHaveAttribute('aria-current', 'true');
  await shop.stop();
});

test('the drawing has no accessibility violation near by, as a whole, and with a branch being led, and keeps to the page’s policy', async ({
  page,
}) => {
  test.slow();
  const refused: string[] = [];
  page.on('console', (message) => {
    if (message.text().includes('Content Security Policy')) refused.push(message.text());
  });
  const shop = await openDrawing(page);
  await way(page, /^Step 1, .+, Springs crusted/).click();
  await expectNoViolation(page, 'the drawing');
  await page.keyboard.press('l');
  await expectNoViolation(page, 'the drawing while a branch is led');
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Show all' }).click();
  await expectNoViolation(page, 'the drawing as a whole');
  expect(refused).toEqual([]);
  await shop.stop();
});

/** From the middle of one to a place in the other that is neither a result nor a line. */
async function drag(page: Page, from: Locator, to: Locator): Promise<void> {
  await expect(drawing(page)).toHaveAttribute('data-laid', 'true');
  const [start, end] = [await from.boundingBox(), await to.boundingBox()];
  if (start === null || end === null) throw new Error('not in sight');
  await page.mouse.move(start.x + start.width / 2, start.y + start.height / 2);
  await page.mouse.down();
  await page.mouse.move(start.x + start.width / 2 + 12, start.y + start.height + 20, { steps: 4 });
  await page.mouse.move(end.x + end.width / 2, end.y + 12, { steps: 6 });
  await page.mouse.up();
}
