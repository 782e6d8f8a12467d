import { readFileSync } from 'node:fs';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { act } from './bench.ts';
import {
  close,
  FIRST_ANSWER,
  goToReview,
  grouped,
  openInvented,
  partsOf,
  percents,
  reviewOf,
  type Reviewed,
} from './review.ts';

let reviewed: Reviewed;
test.beforeAll(async ({ browser }) => {
  test.setTimeout(180_000);
  reviewed = await openInvented(browser);
});
test.afterAll(() => close(reviewed));

/** The text of a file that a button saves, and its name. */
async function saved(page: Page, button: Locator): Promise<{ readonly name: string; readonly text: string }> {
  const coming = page.waitForEvent('download');
  await button.click();
  const download = await coming;
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), 'utf8') };
}

/** The day (UTC), as a saved file's name has it. */
function today(): string {
  return new Date().toISOString().slice(0, 10);
}

/** Reads CSV as RFC 4180 has it. */
function csvRecords(text: string): readonly (readonly string[])[] {
  const records: string[][] = [[]];
  for (const [, quoted, plain, end] of text.matchAll(/(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/g)) {
    records.at(-1)?.push(quoted?.replaceAll('""', '"') ?? plain ?? '');
    if (end !== ',') records.push([]);
  }
  return records.slice(0, -1);
}

test('a table saved as CSV has every row of it, with the figures of the command to the last digit', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  const { name, text } = await saved(
    page,
    page.getByRole('button', { name: 'Save as CSV: Findings by what they take' }),
  );
  expect(name).toBe(`ohmward-findings-as-of-${today()}.csv`);
  const [heads = [], ...rows] = csvRecords(text.replace(/^\ufeff/, ''));
  const of = (row: readonly string[], head: string): string => row[heads.indexOf(head)] ?? '';
  const { pareto } = reviewOf(reviewed);
  const figures = pareto.toSorted((a, b) => b.minutes - a.minutes);
  expect(
    rows.map((row) => [of(row, 'finding'), Number(of(row, 'jobs')), Number(of(row, 'minutes'))]),
  ).toEqual(figures.map(({ finding, jobs, minutes }) => [finding, jobs, minutes]));
});

test('a plot saved as SVG is sound XML and says what it shows', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  const { name, text } = await saved(
    page,
    page.getByRole('button', { name: 'Save as SVG: First-time fix, month by month' }),
  );
  expect(name).toBe(`ohmward-first-time-fix-by-month-as-of-${today()}.svg`);
  const read = await page.evaluate((svg) => {
    const parsed = new DOMParser().parseFromString(svg, 'image/svg+xml');
    return {
      root: parsed.documentElement.localName,
      wrong: parsed.querySelector('parsererror') !== null,
      words: parsed.documentElement.textContent,
    };
  }, text);
  expect(read).toMatchObject({ root: 'svg', wrong: false });
  expect(read.words).toContain('First-time fix, month by month');
});

test('what is saved of a narrowed page says so: the name of a table, and the name, title and description of a plot', async () => {
  const { page } = reviewed;
  await goToReview(reviewed, '?board=A2&from=2020-01-01&window=30');
  const mark = `board-a2-since-2020-01-01-window-30-as-of-${today()}`;
  const table = await saved(
    page,
    page.getByRole('button', { name: 'Save as CSV: Findings by what they take' }),
  );
  expect(table.name).toBe(`ohmward-findings-${mark}.csv`);
  const { pareto } = reviewOf(reviewed, '--board', 'A2', '--from', '2020-01-01', '--window', '30');
  expect(csvRecords(table.text)).toHaveLength(pareto.length + 1);
  const plot = await saved(
    page,
    page.getByRole('button', { name: 'Save as SVG: First-time fix, month by month' }),
  );
  expect(plot.name).toBe(`ohmward-first-time-fix-by-month-${mark}.svg`);
  for (const part of ['desc', 'text']) {
    const words = [...plot.text.matchAll(new RegExp(`<${part}[^>]*>([^<]*)<`, 'g'))].map(([, one]) => one);
    expect(words.join(' ')).toMatch(
      /with board A2, .*1 Jan 2020; comebacks within 30 days; as of .*; invented jobs/,
    );
  }
});

test('what may still change and what differs is told in words, whatever colours there are', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  await page.emulateMedia({ forcedColors: 'active' });
  const { byMonth, branches } = reviewOf(reviewed);
  const verdict = byMonth.map(({ provisional, outOfControl, rate, high }) =>
    provisional
      ? /provisional/
      : outOfControl
        ? rate > high
          ? /above the limits/
          : /below the limits/
        : /limits [^;]*$/,
  );
  const points = page.getByRole('group', { name: /^First-time fix by month/ }).locator('[data-point]');
  await expect(points).toHaveCount(byMonth.length);
  for (const [index, said] of verdict.entries()) await expect(points.nth(index)).toHaveAccessibleName(said);
  const shapes = await points.evaluateAll((all) =>
    all.map((one) => one.querySelector('path, circle')?.outerHTML.replace(/[\d.]+/g, '') ?? ''),
  );
  const shapeOf = (isProvisional: boolean): Set<string> =>
    new Set(
      shapes.filter(
        (_, index) => byMonth[index]?.provisional === isProvisional && !byMonth[index].outOfControl,
      ),
    );
  expect([...shapeOf(true)].filter((shape) => shapeOf(false).has(shape))).toEqual([]);
  const differ = branches.filter(({ differs }) => differs).length;
  const branchTable = page.getByRole('table', { name: 'Branches, those that differ first' });
  await expect(branchTable.getByRole('cell', { name: / differs$/ })).toHaveCount(Math.min(differ, 12));
  await page.emulateMedia({ forcedColors: 'none' });
});

test('axe-core finds nothing on the page, the jobs behind a figure and the sheet, in both themes', async () => {
  test.slow();
  const { page } = reviewed;
  await goToReview(reviewed);
  await expectNoViolation(page, 'the review');
  await goToReview(reviewed, '?jobs=outcome:no-fault-found');
  await expect(page.getByRole('dialog').getByRole('table')).toBeVisible();
  await expectNoViolation(page, 'the jobs behind a figure', '[role=dialog]');
  await page.keyboard.press('Escape');
  await page.getByRole('link', { name: 'Sheet for the month' }).click();
  await expect(page.getByRole('article')).toBeVisible();
  await expectNoViolation(page, 'the sheet of a month');
});

test('the sheet of a month says what the command says of it, and leads back to the page as it was', async () => {
  const { page } = reviewed;
  await goToReview(reviewed, '?window=30');
  await page.getByRole('link', { name: 'Sheet for the month' }).click();
  const month = page.getByRole('combobox', { name: 'Month' });
  await expect(page.getByRole('article')).toBeVisible();
  const newest = reviewOf(reviewed).byMonth.at(-3)?.month ?? '';
  await month.selectOption(newest);
  await expect(page).toHaveURL(new RegExp(`month=${newest}`));
  const last = new Date(Date.UTC(Number(newest.slice(0, 4)), Number(newest.slice(5)), 0)).getUTCDate();
  const told = reviewOf(
    reviewed,
    '--from',
    `${newest}-01`,
    '--to',
    `${newest}-${String(last)}`,
    '--window',
    '30',
  );
  const sheet = page.getByRole('article');
  await expect(sheet).toContainText(
    `${grouped(told.jobs)} jobs closed, ${percents(told.firstTimeFix.rate)} fixed the first time`,
  );
  const back = told.comebackFree.reduce((sum, point) => sum + (point.days <= 30 ? point.back : 0), 0);
  const fixed = told.outcomes.find(({ outcome }) => outcome === 'fixed')?.count ?? 0;
  await expect(sheet).toContainText(`${grouped(back)} of ${grouped(fixed)}`);
  const comebacks = sheet
    .getByRole('table')
    .filter({ has: page.getByRole('columnheader', { name: 'Back on day' }) });
  await expect(comebacks.getByRole('row')).toHaveCount(back === 0 ? 0 : back + 1);
  const people = sheet
    .getByRole('table')
    .filter({ has: page.getByRole('columnheader', { name: 'Technician' }) });
  const names = await people.getByRole('rowheader').allInnerTexts();
  expect(names).toEqual(names.toSorted((a, b) => a.localeCompare(b, 'en')));
  expect(names).toHaveLength(told.byTechnician.length);
  await page.getByRole('link', { name: 'Back to the review' }).click();
  await expect(page).toHaveURL(/#\/review\?window=30$/);
});

test('a sheet can leave technicians off, by keyboard and kept in its address, and says “so far” only while units may come back', async () => {
  const { page } = reviewed;
  await goToReview(reviewed, '?window=30');
  await page.getByRole('link', { name: 'Sheet for the month' }).click();
  const sheet = page.getByRole('article');
  const people = sheet.getByRole('heading', { name: 'Technicians' });
  await expect(people).toBeVisible();
  const choice = page.getByRole('checkbox', { name: 'With technicians' });
  await expect(choice).toBeChecked();
  await choice.focus();
  await page.keyboard.press('Space');
  await expect(people).toBeHidden();
  await expect(choice).toBeFocused();
  await expect(page).toHaveURL(/technicians=off/);
  const [first, newest] = [reviewOf(reviewed).byMonth.at(1)?.month, reviewOf(reviewed).byMonth.at(-1)?.month];
  const month = page.getByRole('combobox', { name: 'Month' });
  await month.selectOption(first ?? '');
  await expect(sheet.getByText('Comebacks', { exact: true }).first()).toBeVisible();
  await expect(sheet).not.toContainText(/so far within|Comebacks so far|may still come back/);
  await expect(page).toHaveURL(/technicians=off/);
  await page.reload();
  await expect(sheet.getByRole('heading', { name: 'How the jobs ended' })).toBeVisible(FIRST_ANSWER);
  await expect(people).toBeHidden();
  await choice.check();
  await expect(page).not.toHaveURL(/technicians/);
  await month.selectOption(newest ?? '');
  await expect(sheet).toContainText('Comebacks so far');
});

test('printed, the sheet stands alone on white, says that jobs are invented, and is no wider than its leaves', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  await page.getByRole('link', { name: 'Sheet for the month' }).click();
  await expect(page.getByRole('article')).toBeVisible();
  // Plots are printed as they are laid out on the screen: a leaf of A4 has so many CSS pixels between its margins of 14 mm.
  const leaf = (182 / 25.4) * 96;
  const widths = await page
    .getByRole('article')
    .locator('svg[data-plot]')
    .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().width));
  expect(widths).toHaveLength(2);
  expect(Math.max(...widths)).toBeLessThanOrEqual(leaf + 1);
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  await expect(page.getByRole('button', { name: 'Print' })).toBeHidden();
  await expect(page.getByRole('navigation')).toHaveCount(0);
  await expect(page.locator('html')).toHaveCSS('background-color', 'rgb(255, 255, 255)');
  await expect(page.getByRole('article')).toContainText('Invented jobs are among these');
  expect((await page.pdf({ format: 'A4' })).subarray(0, 5).toString()).toBe('%PDF-');
  await page.emulateMedia({ media: 'screen', colorScheme: 'light' });
});

test('a job that is closed in another window counts once the page is renewed', async () => {
  const { page, shop } = reviewed;
  await goToReview(reviewed);
  const { jobs } = reviewOf(reviewed);
  await expect(partsOf(page)).toContainText(`of ${grouped(jobs)} jobs`);
  const other = await page.context().newPage();
  await other.goto(new URL('/', shop.address).href);
  await other.getByRole('combobox', { name: 'Technician at work' }).selectOption({ index: 1 });
  await other.getByRole('table').first().getByRole('link').first().click();
  await expect(other.getByRole('region', { name: /^Job / })).toBeVisible();
  await expect(act(other)).toBeVisible();
  await other
    .getByRole('button', { name: /^Pass on or close/ })
    .first()
    .click();
  await other.getByRole('dialog').getByRole('radio', { name: 'Declined' }).check();
  await other
    .getByRole('dialog')
    .getByRole('button', { name: /Close the job/ })
    .click();
  await expect(other.getByRole('dialog')).toBeHidden();
  await other.close();
  await page.bringToFront();
  await page.keyboard.press('r');
  await expect(partsOf(page)).toContainText(`of ${grouped(jobs + 1)} jobs`);
  expect(reviewOf(reviewed).jobs).toBe(jobs + 1);
});
