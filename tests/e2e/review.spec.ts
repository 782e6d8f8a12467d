import { expect, test, type Page } from '@playwright/test';
import { tabTo } from './bench.ts';
import {
  close,
  FIRST_ANSWER,
  goToReview,
  grouped,
  openInvented,
  partsOf,
  percents,
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

/** The figures of a column of a table, by the row's head. */
async function columnOf(page: Page, caption: string, column: number): Promise<Record<string, string>> {
  const rows = await tableOf(page, caption).locator('tbody tr').all();
  const read = rows.map(async (row) => [
    await row.getByRole('rowheader').innerText(),
    (await row.getByRole('cell').nth(column).innerText()).replace(/:.*$/s, '').trim(),
  ]);
  return Object.fromEntries(await Promise.all(read)) as Record<string, string>;
}

test('the frame opens the review by mouse and by keyboard', async () => {
  const { page } = reviewed;
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Review' }).click();
  await expect(partsOf(page)).toBeVisible(FIRST_ANSWER);
  await page.getByRole('link', { name: 'Bench' }).click();
  await expect(page.getByRole('heading', { name: 'Jobs', level: 1 })).toBeVisible();
  await tabTo(page, 'link', 'Review');
  await page.keyboard.press('Enter');
  await expect(page).toHaveURL(/#\/review$/);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('What does the shop’s record say?');
  await page.keyboard.press('3');
  await expect(page.getByRole('heading', { name: 'Where the hours go' })).toBeFocused();
});

const PARTS = [
  'First-time fix',
  'Comebacks',
  'Where the hours go',
  'Is the tree right?',
  'What the advice is worth',
];

/** A part's heading is where the keys are, on the screen with nothing over it; the list says so, and the filters stand. */
async function expectAt(page: Page, part: string): Promise<void> {
  const heading = page.getByRole('heading', { name: part, level: 2 });
  await expect(heading).toBeFocused();
  await expect(heading).toBeInViewport();
  const isOnTop = heading.evaluate((head) => {
    const { left, top, height } = head.getBoundingClientRect();
    return head.contains(document.elementFromPoint(left + 4, top + height / 2));
  });
  expect(await isOnTop, part).toBe(true);
  await expect(partsOf(page).locator('[aria-current=location]')).toContainText(part);
  await expect(page).toHaveURL(/#\/review\?window=30$/);
}

test('each part is reached by mouse, by tab and by its number, with the filters kept', async () => {
  const { page } = reviewed;
  await goToReview(reviewed, '?window=30');
  const buttons = partsOf(page).getByRole('button');
  await expect(buttons).toHaveCount(PARTS.length);
  for (const [index, part] of PARTS.toReversed().entries()) {
    await buttons.nth(PARTS.length - 1 - index).click();
    await expectAt(page, part);
  }
  await buttons.first().focus();
  for (const part of PARTS.slice(1)) {
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter');
    await expectAt(page, part);
    await buttons.nth(PARTS.indexOf(part)).focus();
  }
  for (const [index, part] of PARTS.entries()) {
    await page.keyboard.press(String(index + 1));
    await expectAt(page, part);
  }
});

test('printed, the page has its parts and no list of them', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  await page.emulateMedia({ media: 'print' });
  await expect(partsOf(page)).toHaveCount(0);
  await expect(page.getByRole('heading', { name: 'Comebacks', level: 2 })).toBeVisible();
  await page.emulateMedia({ media: 'screen' });
});

test('the page says what the command says of the same database', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  const told = reviewOf(reviewed);
  const first = page.getByRole('region', { name: 'First-time fix' });
  await expect(first).toContainText(percents(told.firstTimeFix.rate));
  await expect(first).toContainText(`${grouped(told.firstTimeFix.closed)} closed jobs`);
  const { outcomes, byTechnician, names } = told;
  const jobs = await columnOf(page, 'Outcomes', 0);
  expect(Object.values(jobs)).toEqual(outcomes.map(({ count }) => grouped(count)));
  const people = await columnOf(page, 'By technician, in the order of their names', 0);
  expect(people).toEqual(
    Object.fromEntries(byTechnician.map(({ id, closed }) => [names.technicians[id], grouped(closed)])),
  );
  const months = await columnOf(page, 'By month of closing, the newest first', 1);
  const newest = told.byMonth.toReversed().slice(0, 6);
  expect(Object.values(months)).toEqual(newest.map(({ fixed }) => grouped(fixed)));
});

test('filters set by mouse and by keyboard stand in the address and hold through reload, back and forward', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  const filters = page.getByRole('group', { name: 'Filters' });
  await filters.getByRole('combobox', { name: 'Tree' }).selectOption({ index: 1 });
  await expect(page).toHaveURL(/\?tree=/);
  const tree = await filters.getByRole('combobox', { name: 'Tree' }).inputValue();
  const jobs = reviewOf(reviewed, '--tree', tree).jobs;
  await expect(partsOf(page)).toContainText(`of ${grouped(jobs)} jobs`);

  await page.keyboard.press('Escape');
  await page.getByRole('heading', { level: 1 }).focus();
  await page.keyboard.press('f');
  await expect(filters.getByRole('combobox', { name: 'Closed in' })).toBeFocused();
  await filters.getByRole('spinbutton', { name: 'Comeback within' }).focus();
  await page.keyboard.press('ControlOrMeta+a');
  await page.keyboard.type('30');
  await page.keyboard.press('Enter');
  await expect(page).toHaveURL(/window=30/);
  const told = reviewOf(reviewed, '--tree', tree, '--window', '30');
  const gist = `${percents(told.firstTimeFix.rate)} of ${grouped(told.jobs)} jobs`;
  await expect(partsOf(page)).toContainText(gist);
  await expect(page.getByRole('region', { name: 'Comebacks' })).toContainText('after 30 days');
  const outcomes = Object.values(await columnOf(page, 'Outcomes', 0));
  expect(outcomes).toEqual(told.outcomes.map(({ count }) => grouped(count)));

  await page.reload();
  await expect(partsOf(page)).toContainText(gist, FIRST_ANSWER);
  await expect(filters.getByRole('combobox', { name: 'Tree' })).toHaveValue(tree);
  await page.goBack();
  await expect(filters.getByRole('spinbutton', { name: 'Comeback within' })).toHaveValue('90');
  await page.goBack();
  await expect(filters.getByRole('combobox', { name: 'Tree' })).toHaveValue('');
  await page.goForward();
  await page.goForward();
  await expect(partsOf(page)).toContainText(gist);
  await page.getByRole('button', { name: /All jobs/ }).click();
  await expect(page).toHaveURL(/#\/review$/);
});

test('behind a figure are as many jobs as it says, and a job opened from there leads back to them', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  const { outcomes } = reviewOf(reviewed);
  const none = outcomes.find(({ outcome }) => outcome === 'no-fault-found')?.count ?? 0;
  expect(none).toBeGreaterThan(0);
  await tableOf(page, 'Outcomes')
    .getByRole('row', { name: /No fault found/ })
    .getByRole('button')
    .click();
  const dialog = page.getByRole('dialog', { name: 'No fault found' });
  await expect(dialog).toContainText(`${grouped(none)} jobs`);
  const more = dialog.getByRole('button', { name: /More jobs/ });
  const rows = dialog.locator('tbody tr');
  await expect(rows).toHaveCount(Math.min(50, none));
  if (none > 50) await more.click();
  await expect(rows).toHaveCount(Math.min(100, none));
  const serial = await rows.first().getByRole('link').innerText();
  await rows.first().getByRole('link').click();
  await expect(page.getByRole('region', { name: `Job ${serial}` })).toBeVisible();
  await page.goBack();
  await expect(dialog).toBeVisible();
  await expect(rows.first().getByRole('link')).toHaveText(serial);
  await page.keyboard.press('Escape');
  await expect(dialog).toBeHidden();
  await expect(page).toHaveURL(/#\/review$/);
});

test('behind a finding’s comebacks and a technician’s symptom are as many jobs as they say', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  const { comebacksByFinding, technicianSymptoms, names } = reviewOf(reviewed);
  const [finding] = comebacksByFinding;
  if (finding === undefined || finding.back === 0) throw new Error('the demo has no unit back');
  const repairs = tableOf(page, 'Comebacks by finding, those least likely to be chance first');
  await repairs.locator('tbody tr').first().getByRole('button', { name: /Back$/ }).click();
  const title = names.findings[`${finding.tree}/${finding.finding}`] ?? finding.finding;
  const dialog = page.getByRole('dialog', { name: `${title}: back within 90 days` });
  await expect(dialog).toContainText(`${grouped(finding.back)} job`);
  await expect(dialog.locator('tbody tr')).toHaveCount(finding.back);
  await page.keyboard.press('Escape');
  await repairs
    .locator('tbody tr')
    .first()
    .getByRole('button', { name: /Fixed$/ })
    .click();
  await expect(page.getByRole('dialog', { name: `Fixed: ${title}` })).toContainText(
    `${grouped(finding.fixed)} job`,
  );
  await page.keyboard.press('Escape');

  const question = page.getByRole('heading', { name: 'Whom to train in what?' }).locator('..');
  await expect(question).toContainText(
    `${String(technicianSymptoms.length)} pairs of technician and symptom`,
  );
  await question.getByRole('button', { name: /^Show all/ }).click();
  const [pair] = technicianSymptoms;
  const person = names.technicians[pair?.technician ?? ''] ?? '';
  const symptom = names.symptoms[`${pair?.tree ?? ''}/${pair?.symptom ?? ''}`] ?? '';
  await question
    .getByRole('row', { name: `${person} ${symptom}` })
    .getByRole('button', { name: /Fixed first$/ })
    .click();
  const judged = page.getByRole('dialog', {
    name: `${symptom}, closed by ${person}, comeback window passed`,
  });
  await expect(judged).toContainText(`${grouped(pair?.closed ?? 0)} job`);
  await page.keyboard.press('Escape');
  await expect(judged).toBeHidden();
});

test('behind what was tried first in vain, and what it was then, are as many jobs as they say', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  const { triedFirst, names } = reviewOf(reviewed);
  const [first] = triedFirst;
  const [other] = first?.instead ?? [];
  if (first === undefined || other === undefined) throw new Error('nothing was tried in vain in the demo');
  const titleOf = (finding: string) => names.findings[`${first.tree}/${finding}`] ?? 'Not listed in the tree';
  const row = tableOf(page, 'Findings by what was tried first, those most often in vain first')
    .locator('tbody tr')
    .first();
  await row.getByRole('button', { name: /In vain$/ }).click();
  await expect(
    page.getByRole('dialog', { name: `Tried first in vain: ${titleOf(first.finding)}` }),
  ).toContainText(`${grouped(first.of - first.count)} job`);
  await page.keyboard.press('Escape');
  await expect(row).toContainText(titleOf(other.finding));
  await row.getByRole('button', { name: /In jobs$/ }).click();
  const jobs = page.getByRole('dialog', {
    name: `${titleOf(first.finding)} was tried first; it was: ${titleOf(other.finding)}`,
  });
  await expect(jobs.locator('tbody tr')).toHaveCount(other.jobs);
  await page.keyboard.press('Escape');
});

test('a point of a plot leads by keyboard to the jobs it stands for', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  const newest = reviewOf(reviewed).byMonth.at(-1);
  const plot = page.getByRole('group', { name: /^First-time fix by month/ });
  await plot.locator('[data-point][tabindex="0"]').focus();
  await page.keyboard.press('End');
  await expect(plot.locator(':focus')).toHaveAccessibleName(
    new RegExp(`${String(newest?.fixed)} of ${String(newest?.closed)} job`),
  );
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog', { name: /^Closed in/ })).toContainText(
    `${grouped(newest?.closed ?? 0)} job`,
  );
  await page.keyboard.press('Escape');
});

test('a branch that differs opens in the editor at its step', async () => {
  const { page } = reviewed;
  await goToReview(reviewed);
  const { branches, names } = reviewOf(reviewed);
  const [branch] = branches;
  if (branch?.differs !== true) throw new Error('the demo has no branch that differs');
  await tableOf(page, 'Branches, those that differ first')
    .getByRole('link', { name: /^Open in the tree/ })
    .first()
    .click();
  await expect(page).toHaveURL(new RegExp(`#/trees/.*${branch.step}`));
  const result = names.results[`${branch.tree}/${branch.test}/${branch.result}`] ?? branch.result;
  await expect(page.getByRole('treeitem', { selected: true })).toContainText(result);
});
