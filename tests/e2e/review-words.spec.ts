import { expect, test } from '@playwright/test';
import {
  close,
  goToReview,
  grouped,
  openInvented,
  partsOf,
  reviewOf,
  tableOf,
  type Reviewed,
} from './review.ts';

let reviewed: Reviewed;
test.beforeAll(async ({ browser }) => {
  test.setTimeout(180_000);
  reviewed = await openInvented(browser);
});
test.afterAll(() => close(reviewed));

test('narrowed to last month and a technician, the page’s question and the jobs behind a figure say so as a sentence', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  const { asOf } = reviewOf(reviewed);
  const last = new Date(asOf);
  last.setUTCDate(0);
  const [from, to] = [`${last.toISOString().slice(0, 8)}01`, last.toISOString().slice(0, 10)];
  const month = new Intl.DateTimeFormat('en-GB', { month: 'long', year: 'numeric', timeZone: 'UTC' }).format(
    last,
  );
  const filters = page.getByRole('group', { name: 'Filters' });
  await filters.getByRole('combobox', { name: 'Closed in' }).selectOption('Last month');
  await expect(page).toHaveURL(new RegExp(`from=${from}&to=${to}`));
  const question = page.getByRole('heading', { level: 1 });
  await expect(question).toHaveText(`What does the shop’s record say of jobs closed in ${month}?`);
  const people = filters.getByRole('combobox', { name: 'Technician' });
  await people.selectOption({ index: 1 });
  const name = await people.getByRole('option').nth(1).innerText();
  await expect(question).toHaveText(`What does the shop’s record say of jobs closed by ${name} in ${month}?`);
  const { jobs } = reviewOf(reviewed, '--from', from, '--to', to, '--technician', await people.inputValue());
  expect(jobs).toBeGreaterThan(0);
  await expect(partsOf(page)).toContainText(`of ${grouped(jobs)} job`);
  await page.goto(`${page.url()}&jobs=all`);
  await expect(page.getByRole('dialog')).toContainText(
    `${grouped(jobs)} job${jobs === 1 ? '' : 's'} closed by ${name} in ${month}`,
  );
  await page.keyboard.press('Escape');
});

test('branches are counted as the command counts them, and the tables say of how many and how they were reckoned', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  const { branches, change } = reviewOf(reviewed);
  const came = branches.filter(({ passed }) => passed > 0).length;
  const differ = branches.filter(({ differs }) => differs).length;
  expect(came).toBeLessThan(branches.length);
  await expect(page.getByRole('region', { name: 'Is the tree right?' })).toContainText(
    `${grouped(differ)} of ${grouped(came)} branches that confirmed jobs came by differ`,
  );
  const mix = tableOf(page, 'Findings, those least likely to be chance first').getByRole('columnheader');
  await expect(mix).toContainText([`Newest three months, of ${grouped(change?.now ?? 0)}`]);
  await expect(mix).toContainText([`Before, of ${grouped(change?.before ?? 0)}`]);
  for (const caption of [
    'Comeback-free share of fixed units',
    'Comebacks by finding, those least likely to be chance first',
  ])
    await expect(tableOf(page, caption).getByRole('columnheader', { name: '95' })).toHaveAttribute(
      'title',
      /log\(-log\); exact where none or all are back/,
    );
});
