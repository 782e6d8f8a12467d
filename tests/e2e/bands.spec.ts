import { expect, test, type Locator, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { sayWhoWorks } from './bench.ts';
import { inventJobs } from './invented-jobs.ts';
import { newDatabase, openShop } from './shop.ts';

const PANEL = 'Kittiwake KW-1, refitted panel';
const bands = (page: Page): Locator => page.getByRole('region', { name: 'Results' });
const limit = (page: Page, name: string): Locator => bands(page).getByRole('slider', { name });
const BANDS = '.bands';
const seen = (page: Page): Locator => page.getByRole('region', { name: 'What the shop has read' });

/** Opens a draft of the panel’s tree at one of its tests. */
async function editTest(page: Page, title: string): Promise<void> {
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await page.getByRole('button', { name: `Edit ${PANEL}` }).click();
  await page.getByRole('button', { name: 'Find', exact: true }).click();
  await page.getByRole('searchbox', { name: 'Some of its name' }).fill(title);
  await page.getByRole('button', { name: new RegExp(`^${title}\\s+test$`) }).click();
  await expect(page.getByRole('heading', { name: title, level: 2 })).toBeVisible();
}

async function dragBy(page: Page, handle: Locator, pixels: number): Promise<void> {
  await handle.scrollIntoViewIfNeeded();
  const box = await handle.boundingBox();
  if (box === null) throw new Error('The handle is not to be seen.');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + pixels, y, { steps: 4 });
}

test('the limits of a test are moved by mouse, keys and typing, and gaps are shown and closed', async ({
  page,
}) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await editTest(page, '3.3 V rail');
  await expect(seen(page)).toContainText('No closed job with a confirmed finding');

  // Keys: three presses on one limit are one to undo.
  const low = limit(page, 'Limit between Low and In limits');
  await low.focus();
  for (const key of ['ArrowLeft', 'ArrowLeft', 'Shift+ArrowRight']) await page.keyboard.press(key);
  await expect(low).toHaveAttribute('aria-valuetext', '3.116 V');
  await page.getByRole('button', { name: /^Undo/ }).click();
  await expect(low).toHaveAttribute('aria-valuetext', '3.135 V');

  // The mouse: nothing is kept where Escape lets go of it.
  await dragBy(page, low, -40);
  await page.keyboard.press('Escape');
  await page.mouse.up();
  await expect(low).toHaveAttribute('aria-valuetext', '3.135 V');
  await dragBy(page, low, -40);
  await page.mouse.up();
  await expect(low).not.toHaveAttribute('aria-valuetext', '3.135 V');

  // Typing moves a limit for both bands; left open it makes an overlap, which is left to one of them.
  await bands(page).getByRole('textbox', { name: 'In limits from' }).fill('3V2');
  await page.keyboard.press('Enter');
  await expect(bands(page).getByRole('textbox', { name: 'Low to below' })).toHaveValue('3.2 V');
  await bands(page).getByRole('textbox', { name: 'Low to below' }).fill('3');
  await page.keyboard.press('Enter');
  await expect(bands(page).getByRole('textbox', { name: 'In limits from' })).toHaveValue('3 V');
  await bands(page).getByRole('textbox', { name: 'Low to below' }).fill('');
  await page.keyboard.press('Enter');
  const faults = page.getByRole('list', { name: 'Gaps and overlaps' });
  await expect(faults).toContainText('Overlap: both Low and In limits hold a reading from 3 V to 3.465 V.');
  await expectNoViolation(page, 'bands that overlap', BANDS);
  await faults.getByRole('button', { name: 'Give it to In limits' }).click();
  await expect(faults.getByRole('listitem')).toHaveCount(0);

  // What is no reading stays in its field with why.
  const high = bands(page).getByRole('textbox', { name: 'High from' });
  await high.fill('4k');
  await page.keyboard.press('Enter');
  await high.fill('five');
  await page.keyboard.press('Enter');
  await expect(bands(page).getByRole('alert')).toContainText('not a number');
  await page.keyboard.press('Escape');
  await expect(high).toHaveValue('4 kV');
  await shop.stop();
});

test('a band is split by a new result, and becomes a ratio to another reading', async ({ page }) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await editTest(page, '3.3 V rail');
  await bands(page).getByRole('button', { name: 'Split Low' }).click();
  await page.keyboard.press('Enter');
  await expect(page.getByText('Give the new result a title.')).toBeVisible();
  await page.keyboard.type('Sagging');
  await bands(page).getByRole('textbox', { name: 'Split at' }).fill('2V8');
  await expectNoViolation(page, 'a band to be split', BANDS);
  await page.keyboard.press('Enter');
  await expect(limit(page, 'Limit between Low and Sagging')).toHaveAttribute('aria-valuetext', '2.8 V');
  const ratios = bands(page).getByRole('combobox', { name: 'Limits are' });
  // A ratio is of volts to volts: a test that reads ohms is not offered.
  expect(await ratios.getByRole('option').allInnerTexts()).not.toContain('Ratios to Supply to ground');
  await ratios.selectOption('Ratios to Driver board feed');
  await expect(limit(page, 'Limit between Low and Sagging')).toHaveAttribute('aria-valuetext', '2.8');
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await shop.stop();
});

test('what the shop has read is laid under the bands, with what another limit would change', async ({
  page,
}) => {
  test.slow();
  const file = newDatabase();
  inventJobs(file, 2000, 5);
  const shop = await openShop(file);
  await page.goto(shop.address);
  await expect(page.getByRole('heading', { name: 'Jobs', level: 1 })).toBeVisible();
  await page.getByRole('combobox').first().selectOption({ index: 1 });
  await editTest(page, 'Cells, at rest');
  await expect(page.getByRole('list', { name: 'Readings by confirmed finding' })).toContainText(
    /\d+ readings/,
  );
  await expectNoViolation(page, 'bands with readings', BANDS);
  // The invented readings lie within their bands, so the limit is put in a worse place first.
  const enough = limit(page, 'Limit between Tired and Enough');
  await enough.focus();
  await expect(seen(page)).toContainText('No other limit parts these readings better.');
  await dragBy(page, enough, -60);
  await expect(seen(page)).toContainText(/If let go here\. [1-9]\d* of \d+ readings would sort otherwise/);
  await page.mouse.up();
  await expect(seen(page)).toContainText(
    /Against the published bands\. [1-9]\d* of \d+ readings would sort otherwise: .+ from Tired to Enough/,
  );
  const take = seen(page).getByRole('button', { name: /^Move the limit to/ });
  await expect(take).toBeVisible();
  await take.click();
  await expect(seen(page)).toContainText('No other limit parts these readings better.');
  await expectNoViolation(page, 'bands with a limit moved', BANDS);
  await shop.stop();
});

test('the cost and the shares of a draft with a limit moved are those that publishing it gives', async ({
  page,
}) => {
  test.slow();
  const file = newDatabase();
  inventJobs(file, 500, 5);
  const shop = await openShop(file);
  await page.goto(shop.address);
  await expect(page.getByRole('heading', { name: 'Jobs', level: 1 })).toBeVisible();
  await page.getByRole('combobox').first().selectOption({ index: 1 });
  const figures = page.getByRole('region', { name: 'Cost' }).locator('td.now .figures');
  const shares = page
    .getByRole('application', { name: /^Drawing of the path of/ })
    .getByRole('button', { name: /^Step 2, Cells, at rest, (?:Enough|Tired|Flat) to/ });
  /** All that is reckoned of the draft; null while some of it is not there yet. */
  const reckoned = async (): Promise<readonly (string | null)[] | null> => {
    const cost = await figures.allInnerTexts();
    const ways = await shares.evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')));
    return cost.length < 3 || ways.length === 0 || cost.includes('…') ? null : [...cost, ...ways];
  };
  const settled = async (): Promise<readonly (string | null)[]> => {
    let last: readonly (string | null)[] | null = null;
    await expect(async () => {
      const now = await reckoned();
      const former = last;
      last = now;
      expect(now).not.toBeNull();
      expect(now).toEqual(former);
    }).toPass({ intervals: [500], timeout: 60_000 });
    return last ?? [];
  };

  await editTest(page, 'Cells, at rest');
  const asPublished = await settled();
  await bands(page).getByRole('textbox', { name: 'Enough from' }).fill('5.5');
  await page.keyboard.press('Enter');
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await expect.poll(reckoned, { timeout: 60_000 }).not.toEqual(asPublished);
  const foreseen = await settled();
  expect(foreseen).not.toEqual(asPublished);
  await expect(page.getByRole('region', { name: 'Cost' })).not.toContainText('sorting the shop’s history');

  await page.getByRole('button', { name: 'Publish…' }).click();
  const dialog = page.getByRole('dialog', { name: `Publish “${PANEL}”` });
  await dialog.getByRole('textbox').first().fill('Cells are tired sooner');
  await dialog.getByRole('button', { name: 'Publish', exact: true }).click();
  await expect(dialog).toBeHidden();
  await editTest(page, 'Cells, at rest');
  expect(await settled()).toEqual(foreseen);
  await shop.stop();
});
