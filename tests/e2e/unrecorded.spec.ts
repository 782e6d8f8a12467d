import { expect, test, type BrowserContext, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { sayWhoWorks } from './bench.ts';
import { newDatabase, openShop, type Shop } from './shop.ts';
import { form } from './turnstone.ts';

const TITLE = 'Kittiwake KW-1, USB-C charging board';
const APPEND = '**/rpc/drafts/append';

let shop: Shop;

test.beforeEach(async ({ page }) => {
  shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await area(page, 'Trees').click();
  await page.getByRole('button', { name: `Edit ${TITLE}` }).click();
  await page.getByRole('treeitem', { name: 'Cell voltage, unplugged' }).first().click();
});

test.afterEach(() => shop.stop());

const area = (page: Page, name: string) =>
  page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name });

const minutes = (page: Page) => form(page).getByRole('textbox', { name: 'Minutes' });

const note = (page: Page) =>
  page.getByRole('alert').filter({ hasText: `Edits in the draft of “${TITLE}” are not recorded.` });

/** Types minutes while the records cannot be reached. */
async function editUnrecorded(page: Page): Promise<void> {
  await page.route(APPEND, (route) => route.abort());
  await minutes(page).fill('0.75');
  await page.keyboard.press('Tab');
  await expect(page.getByText('Not kept')).toBeVisible();
}

test('edits that could not be recorded are there again after a way round the areas, and are recorded once that goes again', async ({
  page,
}) => {
  await editUnrecorded(page);
  await expect(note(page)).toHaveCount(0);
  await area(page, 'Bench').click();
  await expect(note(page)).toContainText('Ohmward is not answering.');
  await expectNoViolation(page, 'edits not recorded, seen from the bench');
  await area(page, 'Shop').click();
  await expect(note(page)).toBeVisible();
  await area(page, 'Trees').click();
  await expect(note(page)).toBeVisible();
  await note(page).getByRole('link', { name: 'Go to the draft' }).click();
  await expect(minutes(page)).toHaveValue('0.75');
  await expect(page.getByText('Not kept')).toBeVisible();

  await page.unroute(APPEND);
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(minutes(page)).toHaveValue('0.5');
  await page.keyboard.press('Control+Shift+z');
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await page.reload();
  await page.getByRole('treeitem', { name: 'Cell voltage, unplugged' }).first().click();
  await expect(minutes(page)).toHaveValue('0.75');
});

test('edits left unrecorded are recorded while one is at the bench, and until then the window asks before it closes', async ({
  page,
}) => {
  await editUnrecorded(page);
  await area(page, 'Bench').click();
  await expect(note(page)).toBeVisible();
  const asked = page.waitForEvent('dialog');
  const closing = page.close({ runBeforeUnload: true });
  const dialog = await asked;
  expect(dialog.type()).toBe('beforeunload');
  await dialog.dismiss();
  await closing;

  await note(page).getByRole('button', { name: 'Try again' }).click();
  await expect(note(page)).toBeVisible();
  // From here on it may be tried by itself at any moment.
  await page.unroute(APPEND);
  await expect(note(page)).toHaveCount(0, { timeout: 20_000 });
  await page.reload();
  await area(page, 'Trees').click();
  await page.getByRole('button', { name: `Edit ${TITLE}` }).click();
  await page.getByRole('treeitem', { name: 'Cell voltage, unplugged' }).first().click();
  await expect(minutes(page)).toHaveValue('0.75');
});

test('edits in a draft that ended in another window are said to be past recording, and let go of by choice', async ({
  page,
  context,
}) => {
  await editUnrecorded(page);
  const other = await context.newPage();
  await other.goto(new URL('#/trees', page.url()).href);
  await other
    .getByRole('button', { name: /^Discard/ })
    .first()
    .click();
  await other
    .getByRole('dialog')
    .getByRole('button', { name: /^Discard/ })
    .click();
  await expect(other.getByRole('dialog')).toBeHidden();

  await area(page, 'Bench').click();
  await page.unroute(APPEND);
  // It is tried again by itself, a few seconds apart, so a button for it may be gone before it could be pressed.
  const past = page.getByRole('alert').filter({ hasText: 'cannot be recorded as they are' });
  await expect(past).toBeVisible({ timeout: 20_000 });
  await past.getByRole('button', { name: 'Let this 1 edit go' }).click();
  await expect(past).toHaveCount(0);
});

/** The same draft in a second window, with minutes of its own typed there. */
async function editElsewhere(page: Page, context: BrowserContext): Promise<Page> {
  const other = await context.newPage();
  await other.goto(page.url());
  await other.getByRole('treeitem', { name: 'Cell voltage, unplugged' }).first().click();
  await minutes(other).fill('3');
  await other.keyboard.press('Tab');
  await expect(other.getByText('Draft, all kept')).toBeVisible();
  await page.bringToFront();
  return other;
}

const outrun = (page: Page) =>
  page.getByRole('alert').filter({ hasText: 'has been edited in another window since it was read here' });

const summary = (page: Page) => form(page).getByRole('textbox', { name: 'Title' });

test('edits in a draft that was edited in another window are made again on top of what was done there', async ({
  page,
  context,
}) => {
  const other = await editElsewhere(page, context);
  await summary(page).fill('Cells, unplugged');
  await page.keyboard.press('Tab');
  await expect(outrun(page)).toContainText('1 edit of this window is not recorded');
  await expect(outrun(page)).not.toContainText('/seq');
  await expectNoViolation(page, 'a draft edited in another window');
  await outrun(page).getByRole('button', { name: 'Read it again, with this 1 edit on top' }).click();
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await expect(summary(page)).toHaveValue('Cells, unplugged');
  await expect(minutes(page)).toHaveValue('3');
  await page.reload();
  await page.getByRole('treeitem', { name: 'Cells, unplugged' }).first().click();
  await expect(minutes(page)).toHaveValue('3');
  await other.close();
});

test('an edit of what another window edited too is named, and let go of only by choice', async ({
  page,
  context,
}) => {
  await editElsewhere(page, context);
  await summary(page).fill('Cells, unplugged');
  await page.keyboard.press('Tab');
  await expect(outrun(page)).toBeVisible();
  await minutes(page).fill('7');
  await page.keyboard.press('Tab');
  await outrun(page).getByRole('button', { name: 'Read it again, with these 2 edits on top' }).click();
  await expect(outrun(page)).toContainText('cannot be made again');
  await expect(minutes(page)).toHaveValue('7');
  await outrun(page).getByRole('button', { name: 'Make the other 1 again, let 1 go' }).click();
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await expect(summary(page)).toHaveValue('Cells, unplugged');
  await expect(minutes(page)).toHaveValue('3');
});
