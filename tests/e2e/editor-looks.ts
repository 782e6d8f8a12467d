import { expect, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { tabBackTo, line, lineAt, lineTo, paneTo } from './by-keyboard.ts';
import { tabTo } from './bench.ts';
import { form, SOUND, TURNSTONE } from './turnstone.ts';

const { symptom, powered } = TURNSTONE;

/** Looks at the dialog that is open, and leaves it. */
async function lookAndLeave(page: Page, name: string): Promise<void> {
  await expect(page.getByRole('dialog')).toBeVisible();
  await expectNoViolation(page, name, '[role=dialog]');
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog')).toBeHidden();
}

export async function lookAtOutlineDialogs(page: Page): Promise<void> {
  for (const heading of [/^Symptoms/, /^Bench states/, /^Interlocks/]) {
    await lineTo(page, heading);
    await page.keyboard.press('+');
    await lookAndLeave(page, `adding under ${String(heading)}`);
    expect(await lineAt(page)).toMatch(heading);
  }
  await lineTo(page, line(symptom));
  await page.keyboard.press('ArrowRight');
  await lineTo(page, /^2 /);
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await lookAndLeave(page, 'where a branch leads');
  expect(await lineAt(page)).toMatch(line(SOUND));
  await lineTo(page, /^Fuse \d/);
  await page.keyboard.press('Delete');
  await expect(page.getByRole('dialog')).toContainText('depend');
  await lookAndLeave(page, 'what goes with a test');
  expect(await lineAt(page)).toMatch(/^Fuse/);
}

/** Found from a field of a form that goes with it, a part has the keys in the outline. */
export async function lookAtFind(page: Page): Promise<void> {
  await page.keyboard.press('Enter');
  await expect(form(page).getByRole('textbox', { name: 'Title' })).toBeFocused();
  await page.keyboard.press('Control+f');
  await lookAndLeave(page, 'finding a part');
  await expect(form(page).getByRole('textbox', { name: 'Title' })).toBeFocused();
  await page.keyboard.press('Control+f');
  await page.keyboard.type('Regulator dead');
  await page.keyboard.press('Enter');
  await expect(form(page).getByRole('heading', { level: 2 })).toHaveText('Regulator dead');
  expect(await lineAt(page)).toBe('Regulator dead');
}

/** A copy that is undone leaves the keys beside it; a result deleted from a form leaves them in the form. */
export async function takeOutAndStay(page: Page): Promise<void> {
  await lineTo(page, /^Fuse \d/);
  await page.keyboard.press('Control+d');
  expect(await lineAt(page)).toMatch(/^Fuse, copy/);
  await page.keyboard.press('Control+z');
  expect(await lineAt(page)).toMatch(line(powered));
  await page.keyboard.press('Enter');
  await tabTo(page, 'textbox', 'Another result');
  await page.keyboard.type('Wanders');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('textbox', { name: 'Result 3' })).toHaveValue('Wanders');
  await tabBackTo(page, 'button', 'Remove result 3');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog')).toContainText('Wanders');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('textbox', { name: 'Result 3' })).toHaveCount(0);
  await expect(form(page).locator(':focus')).toHaveCount(1);
  await page.keyboard.press('Control+z');
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
}

export async function lookAtPublish(page: Page): Promise<void> {
  await tabBackTo(page, 'button', 'Publish…');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('textbox', { name: 'Note' })).toBeVisible();
  await lookAndLeave(page, 'publishing');
  await expect(page.getByRole('button', { name: 'Publish…' })).toBeFocused();
}

/** What a finding makes a test give, by number key and in the cell’s own dialog. */
export async function lookAtTable(page: Page): Promise<void> {
  await paneTo(page, 'middle');
  await tabBackTo(page, 'button', 'Table');
  await page.keyboard.press('Enter');
  const grid = page.getByRole('grid', { name: 'What each finding makes each test give' });
  await expect(grid).toBeVisible();
  await expectNoViolation(page, 'the table');
  await paneTo(page, 'outline');
  await page.keyboard.press('F6');
  await expect(grid).toBeFocused();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('2');
  await expect(page.getByRole('button', { name: /^Undo/ })).toBeEnabled();
  await page.keyboard.press('Enter');
  await lookAndLeave(page, 'a cell of the table');
  await expect(grid).toBeFocused();
  await page.keyboard.press('Control+z');
  await expect(page.getByRole('button', { name: /^Undo/ })).toBeDisabled();
}

export async function lookAtProposal(page: Page): Promise<void> {
  await paneTo(page, 'checks');
  await tabTo(page, 'button', 'Propose a better order…');
  await page.keyboard.press('Enter');
  await lookAndLeave(page, 'proposing an order');
  await expect(page.getByRole('button', { name: 'Propose a better order…' })).toBeFocused();
}
