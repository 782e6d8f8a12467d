import { expect, test, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { act, record, walkTo } from './bench.ts';
import { dunlinBegun, STOPS } from './dunlin.ts';
import { turnTo } from './repairs.ts';

const WORKER = '**/planner-worker-*.js';

function note(page: Page) {
  return page.getByRole('status').filter({ hasText: 'The planner is not available' });
}

test('without the planner the walk goes on, and a note that can be put away says so once', async ({
  page,
}) => {
  await page.route(WORKER, (route) => route.abort());
  const shop = await dunlinBegun(page);
  await expect(act(page)).toHaveText('Shell: Open');
  await expect(note(page)).toContainText('its program could not be loaded');
  await expectNoViolation(page, 'the planner is not available');
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Row look');
  await page.getByRole('button', { name: 'Put this note away' }).click();
  await expect(note(page)).toBeHidden();
  await record(page, () => page.keyboard.press('2'));
  await walkTo(page, 'Close as fixed', { Sound: '1' });
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Fixed');
  await expect(note(page)).toBeHidden();
  await shop.stop();
});

test('without the planner a symptom that has no path is walked by choosing tests', async ({ page }) => {
  await page.route(WORKER, (route) => route.abort());
  const shop = await dunlinBegun(page, STOPS);
  await expect(note(page)).toBeVisible();
  await expect(act(page)).toHaveText('This symptom has no path');
  await turnTo(page, 'Clock');
  await expect(act(page)).toHaveText('Clock');
  await record(page, () => page.keyboard.press('1'));
  await expect(act(page)).toHaveText('This symptom has no path');
  await shop.stop();
});

test('the act and the ways on are shown before the planner’s answer is there, and nothing moves when it comes', async ({
  page,
}) => {
  const held = Promise.withResolvers<void>();
  await page.route(WORKER, async (route) => {
    await held.promise;
    await route.continue();
  });
  const shop = await dunlinBegun(page, STOPS);
  await expect(act(page)).toHaveText('This symptom has no path');
  await expect(page.getByText('The planner is working out what to do next…')).toBeVisible();
  const ways = page.getByRole('button', { name: 'Another test…' });
  await expect(ways).toBeEnabled();
  const before = await ways.boundingBox();
  held.resolve();
  await expect(page.getByRole('button', { name: 'Make this test' })).toBeVisible();
  expect(await ways.boundingBox()).toEqual(before);
  await shop.stop();
});

test('an answer given before the planner’s advice is there is not followed by advice on what is past', async ({
  page,
}) => {
  const held = Promise.withResolvers<void>();
  await page.route(WORKER, async (route) => {
    await held.promise;
    await route.continue();
  });
  const shop = await dunlinBegun(page);
  const footing = page.getByRole('button', { name: 'Cautions' });
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Row look');
  const before = await footing.boundingBox();
  held.resolve();
  const advice = page.getByRole('status').filter({ hasText: 'The planner would do otherwise' });
  await expect(advice).toContainText('the tree’s “Row look” takes 4 min and');
  expect(await footing.boundingBox()).toEqual(before);
  await shop.stop();
});
