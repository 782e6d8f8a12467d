import { expect, test, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { act, record, tabTo, trail, walkTo } from './bench.ts';
import { dunlinBegun, STOPS } from './dunlin.ts';
import { begun, measure, turnTo } from './repairs.ts';

function advice(page: Page) {
  return page.getByRole('status').filter({ hasText: 'The planner would do otherwise' });
}

function proposal(page: Page) {
  return page.getByRole('status').filter({ hasText: 'Next by the planner' });
}

function backOnPath(page: Page) {
  return page.getByRole('status').filter({ hasText: 'Back on the path' });
}

/** Takes the planner's proposal once it is there. */
async function follow(page: Page, title: string): Promise<void> {
  await expect(proposal(page)).toContainText(title);
  await record(page, () => page.keyboard.press('Enter'));
}

test('what the planner would do otherwise is said with the minutes it saves and why, and turned to by key', async ({
  page,
}) => {
  const shop = await dunlinBegun(page);
  await expect(act(page)).toHaveText('Shell: Open');
  await expect(advice(page)).toContainText('Tap test');
  await expect(advice(page)).toContainText(/Saves an expected \d+(\.\d)?\smin of \d+\smin/);
  await expect(advice(page)).toContainText(
    /It tells “Clock missing” \(30\s%\) from “Joint cracked” \(20\s%\) in 0\.5\smin, and its results are expected 60\/40; the tree’s “Row look” takes 6\smin with its changeovers and is expected to settle 0\s%/,
  );
  await expectNoViolation(page, 'the planner would do otherwise');
  await record(page, () => page.keyboard.press('i'));
  await expect(act(page)).toHaveText('Tap test');
  await expect(advice(page)).toBeHidden();
  await expect(trail(page)).toContainText('Turned to Tap test on the planner’s advice');
  await record(page, () => page.keyboard.press('1'));
  await expect(act(page)).toHaveText('Shell: Open');
  await expect(advice(page)).toContainText('the tree’s “Row look”');
  await tabTo(page, 'button', 'Do this instead');
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).not.toHaveText('Shell: Open');
  await shop.stop();
});

test('where planner and tree agree one quiet line beside the question says so', async ({ page }) => {
  const shop = await dunlinBegun(page);
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText('Row look');
  await record(page, () => page.keyboard.press('2'));
  await expect(act(page)).toHaveText('Ribbon bridge');
  await expect(page.getByRole('complementary')).toContainText(
    /The planner agrees: expected \d+\smin to repair, prove or pass on\./,
  );
  await expect(advice(page)).toBeHidden();
  await shop.stop();
});

test('a test left out leads on by the planner until the path is met again, and the unit is fixed', async ({
  page,
}) => {
  const shop = await dunlinBegun(page);
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Row look');
  await page.keyboard.press('s');
  await page.getByRole('dialog').getByRole('textbox', { name: 'Reason' }).fill('The loupe is lent out');
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('This test cannot be made');
  await follow(page, 'Tap test');
  await walkTo(page, 'Another test…', { 'Tap test': '1' });
  await expect(backOnPath(page)).toBeHidden();
  await follow(page, 'Clock');
  await record(page, () => page.keyboard.press('2'));
  await expect(backOnPath(page)).toBeVisible();
  await expect(act(page)).toHaveText('Clock missing');
  await record(page, () => page.keyboard.press('Enter'));
  await expect(backOnPath(page)).toBeHidden();
  await walkTo(page, 'Close as fixed', { Clock: '1' });
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Fixed');
  await shop.stop();
});

test('a symptom without a path is walked to the end by the planner, by keyboard alone', async ({ page }) => {
  const shop = await dunlinBegun(page, STOPS);
  await expect(act(page)).toHaveText('This symptom has no path');
  await expect(proposal(page)).toBeVisible();
  await expectNoViolation(page, 'a proposal off the path');
  await follow(page, 'Tap test');
  await expect(act(page)).toHaveText('Tap test');
  await record(page, () => page.keyboard.press('2'));
  await follow(page, 'Sound');
  await expect(act(page)).toHaveText('Sound');
  await record(page, () => page.keyboard.press('3'));
  await follow(page, 'Remedy for “Joint cracked”');
  await expect(page.getByText('Wear eye protection')).toHaveCount(0);
  await record(page, () => page.keyboard.press('Enter'));
  await expect(page.getByText('Wear eye protection while you solder.')).toBeVisible();
  await record(page, () => page.keyboard.press('Enter'));
  await walkTo(page, 'Close as fixed', { 'Tap test': '1', Sound: '1' });
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Fixed');
  await expect(trail(page)).not.toHaveCount(0);
  await shop.stop();
});

test('where the way is barred the planner says what it would go on with, which Enter does not do', async ({
  page,
}) => {
  const shop = await begun(page);
  await turnTo(page, 'Sound from the speaker');
  await measure(page, '2');
  await expect(act(page)).toHaveText(/stays barred$/);
  const said = page.getByRole('status').filter({ hasText: 'The planner would go on with' });
  await expect(said).toContainText(/expected \d+\smin to repair, prove or pass on/);
  await expectNoViolation(page, 'the planner where the way is barred');
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText(/stays barred$/);
  await record(page, () => page.keyboard.press('i'));
  await expect(act(page)).not.toHaveText(/stays barred$/);
  await shop.stop();
});
