import { expect, test } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { inventJobs } from './invented-jobs.ts';
import { close, FIRST_ANSWER, goToReview, openOn, reviewOf } from './review.ts';
import { newDatabase } from './shop.ts';

test('without a closed job the review says what it will say, and the sheet that there is none', async ({
  browser,
}) => {
  const reviewed = await openOn(browser, newDatabase());
  const { page } = reviewed;
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Review' }).click();
  await expect(page.getByText('No job is closed yet.')).toBeVisible(FIRST_ANSWER);
  await expect(page.getByText('from some 20 closed jobs on')).toBeVisible();
  for (const part of ['First-time fix', 'Comebacks', 'Where the hours go', 'Is the tree right?'])
    await expect(page.getByRole('main').getByText(part, { exact: false }).first()).toBeVisible();
  await expectNoViolation(page, 'the review without a job');
  await page.goto(`${page.url()}/sheet`);
  await expect(page.getByRole('article')).toContainText('No job is closed yet.');
  await expect(page.getByRole('article').getByRole('table')).toHaveCount(0);
  await expectNoViolation(page, 'the sheet without a job');
  await close(reviewed);
});

test('with three closed jobs the review says that they are too few, and from how many on its figures mean something', async ({
  browser,
}) => {
  const file = newDatabase();
  inventJobs(file, 7, 7);
  const reviewed = await openOn(browser, file);
  const { page } = reviewed;
  await goToReview(reviewed);
  const { jobs, firstTimeFix } = reviewOf(reviewed);
  expect(jobs).toBe(3);
  const first = page.getByRole('region', { name: 'First-time fix' });
  const width = String(Math.round((firstTimeFix.high - firstTimeFix.low) * 100));
  await expect(first).toContainText(`Too few to say: the interval is ${width} points wide`);
  await expect(first).toContainText('From 20 closed jobs on this starts to mean something; there are 3');
  await expect(page.getByRole('region', { name: 'What the advice is worth' })).toContainText(
    /so that nothing can be said|Too few to say/,
  );
  await close(reviewed);
});
