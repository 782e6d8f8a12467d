import { expect, test, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { act, likely, NO_POWER_LED, record, tabTo, trail } from './bench.ts';
import { begun, measure } from './repairs.ts';

const NO_AUDIO = { ...NO_POWER_LED, symptom: 'No game audio' };
const SHORTED = { ...NO_POWER_LED, symptom: 'Dead-short indicator' };

function notice(page: Page) {
  return page.getByRole('status').filter({ hasText: 'Nothing in this tree fits well' });
}

test('a reading that fits nothing in the tree is named, measured again, and the unit passed on', async ({
  page,
}) => {
  test.slow();
  const shop = await begun(page, NO_AUDIO);
  await walkToTest(page, 'Supply to ground');
  await expect(notice(page)).toBeHidden();
  await measure(page, '2');
  await expect(notice(page)).toContainText('“Supply to ground”, 2 Ω, ');
  await expect(notice(page)).toContainText(/Without it, “Volume wheel worn[^”]*” would lead with \d+\s%\./);
  const [share] = /\d+\s%/.exec((await notice(page).textContent()) ?? '') ?? [];
  await expect(likely(page, 'Something not in this tree')).toContainText(share ?? 'no share');
  await expectNoViolation(page, 'nothing in the tree fits a reading');

  await page.keyboard.press('Escape');
  await record(page, () => page.keyboard.press('m'));
  await expect(act(page)).toHaveText('Supply to ground');
  await expect(notice(page)).toContainText('It is being made again now.');
  await expect(page.getByRole('button', { name: 'Measure it again' })).toBeHidden();
  await measure(page, '2');
  await expect(notice(page)).not.toContainText('It is being made again now.');
  const again = page.getByRole('button', { name: 'Measure it again' });
  await record(page, () => again.click());
  await expect(act(page)).toHaveText('Supply to ground');
  await measure(page, '4k7');
  await expect(page.getByText('The same test has given two different results')).toBeVisible();
  await expect(notice(page)).toBeHidden();
  await record(page, () => page.keyboard.press('1'));
  await expect(notice(page)).toBeVisible();

  await page.keyboard.press('Escape');
  await page.keyboard.press('o');
  const dialog = page.getByRole('dialog', { name: 'Pass on or close the job' });
  await expect(dialog.getByRole('radio', { name: 'Passed on' })).toBeChecked();
  await record(page, () => dialog.getByRole('button', { name: 'Close the job' }).click());
  await expect(act(page)).toHaveText('Passed on');
  await expect(notice(page)).toBeHidden();
  await expect(trail(page).first()).toContainText('Closed');
  await shop.stop();
});

test('a chosen answer that fits nothing is named by its result, and settling it for the other ends the notice', async ({
  page,
}) => {
  const shop = await begun(page, SHORTED);
  await walkToTest(page, 'Ribbon row, loupe');
  await record(page, () => page.keyboard.press('4'));
  await expect(notice(page)).toContainText(
    '“Ribbon row, loupe”, Joint or pad raised. Without it, “Solder bridge',
  );
  await expect(page.getByRole('button', { name: 'Pass the unit on…' })).toBeEnabled();
  await tabTo(page, 'button', 'Make the test again');
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText('Ribbon row, loupe');
  await record(page, () => page.keyboard.press('1'));
  await expect(page.getByText('The same test has given two different results')).toBeVisible();
  await record(page, () => page.keyboard.press('2'));
  await expect(page.getByText('The same test has given two different results')).toBeHidden();
  await expect(notice(page)).toBeHidden();
  await shop.stop();
});

/** Does the changeovers on the way. */
async function walkToTest(page: Page, title: string): Promise<void> {
  for (let steps = 0; steps < 5 && (await act(page).textContent()) !== title; steps += 1)
    await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText(title);
}
