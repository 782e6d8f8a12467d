import { expect, type Page } from '@playwright/test';
import { tabTo } from './bench.ts';
import { addUnder, lead, line, lineAt, lineTo, paneTo, pick, tabBackTo, write } from './by-keyboard.ts';
import { blanks, DOCK_DRAWING, FAULTY, form, SOUND, TURNSTONE } from './turnstone.ts';

const { title, family, symptom, axis, path, end, measured, powered } = TURNSTONE;

/** What stands wherever a text has to be. */
export const WRITTEN = 'Written down by Mara.';

/** A new tree, from the bench as far as its empty workspace. */
export async function beginTree(page: Page): Promise<void> {
  await tabTo(page, 'link', 'Trees');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Trees', level: 1 })).toBeVisible();
  await page.keyboard.press('n');
  await expect(page.getByRole('dialog', { name: 'New tree' })).toBeVisible();
  await page.keyboard.type(title);
  await page.keyboard.press('Tab');
  await page.keyboard.type(family);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: title, level: 1 })).toBeVisible();
}

/** The path from its first test on: of each step first where its fault leads, then the next test. */
export async function writePath(page: Page): Promise<void> {
  await addUnder(page, /^Symptoms/, symptom);
  expect(await lineAt(page)).toMatch(line(symptom));
  const known = new Set<string>();
  for (const [index, { test: name, finding }] of path.entries()) {
    if (index === 0) {
      await page.keyboard.press('+');
      await lead(page, name);
    } else {
      await branchTo(page, index, SOUND);
      await lead(page, name);
    }
    expect(await lineAt(page)).toBe(`${String(index + 1)} ${name}`);
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowDown');
    expect(await lineAt(page)).toBe(`${FAULTY}: leads nowhere yet`);
    await page.keyboard.press('Enter');
    // Of a new name a test is offered first, then a finding; one that is there already stands before both.
    await lead(page, finding, known.has(finding) ? 0 : 1);
    expect(await lineAt(page)).toMatch(line(known.has(finding) ? `${FAULTY}: ` : finding));
    known.add(finding);
  }
  await branchTo(page, path.length, SOUND);
  await lead(page, end);
  expect(await lineAt(page)).toContain(end);
}

/** Asks where a branch of a step leads, from the outline. */
async function branchTo(page: Page, step: number, result: string): Promise<void> {
  await lineTo(page, new RegExp(`^${String(step)} `));
  await page.keyboard.press('ArrowRight');
  expect(await lineAt(page)).toBe(`${result}: leads nowhere yet`);
  await page.keyboard.press('Enter');
}

/** Something moved among its like, something added by mistake and taken out again, undone and done again. */
export async function mistakeAndBack(page: Page): Promise<void> {
  await lineTo(page, /^Fuse \d/);
  await page.keyboard.press('Alt+ArrowUp');
  expect(await lineAt(page)).toMatch(/^Fuse/);
  await page.keyboard.press('ArrowDown');
  expect(await lineAt(page)).toMatch(line(powered));
  await addUnder(page, /^Findings/, 'Cable chewed');
  expect(await lineAt(page)).toBe('Cable chewed');
  await page.keyboard.press('Delete');
  await expect(page.getByRole('dialog')).toContainText('Nothing else depends on it');
  await page.keyboard.press('Enter');
  const mistaken = page.getByRole('treeitem', { name: 'Cable chewed' });
  await expect(mistaken).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(mistaken).toHaveCount(1);
  await page.keyboard.press('Control+Shift+z');
  await expect(mistaken).toHaveCount(0);
  await lineAt(page);
}

/** Power off and on, a test that needs it on, and nothing switched on before the supply has been measured. */
export async function writeBench(page: Page): Promise<void> {
  await addUnder(page, /^Bench states/, axis.title, axis.start, axis.other);
  await lineTo(page, new RegExp(`^${powered} \\d`));
  await page.keyboard.press('Enter');
  await pick(page, axis.title, axis.other);
  await lineTo(page, /^Interlocks/);
  await page.keyboard.press('+');
  await pick(page, 'Barred is the changeover into', `${axis.title}: ${axis.other}`);
  await pick(page, 'Until this test has given its first result', measured);
  await tabTo(page, 'button', 'Add');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog')).toBeHidden();
  expect(await lineAt(page)).toBe(`${axis.title}: ${axis.other}, until ${measured}`);
}

/** One test is measured in ohms, with a limit between its results. */
export async function writeMeasured(page: Page): Promise<void> {
  await lineTo(page, new RegExp(`^${measured} \\d`));
  await page.keyboard.press('Enter');
  await expect(form(page).getByRole('heading', { level: 2 })).toHaveText(measured);
  await pick(page, 'Answered by', 'A reading in ohms (Ω)');
  await write(page, `${SOUND} from`, '1k');
  await write(page, `${FAULTY} to below`, '1k');
  await expect(form(page).getByRole('textbox', { name: `${SOUND} from` })).toHaveValue(/^1\s?k/);
}

/** A drawing handed over through the platform’s own dialog, with a named place to probe moved by the arrow keys. */
export async function showWhere(page: Page): Promise<void> {
  await paneTo(page, 'outline');
  await page.keyboard.press('Enter');
  // Asked for before the way to the button: Chromium puts a key that follows at once before the asking, and nobody hears the dialog.
  const chooser = page.waitForEvent('filechooser');
  await tabTo(page, 'button', 'Choose a picture…');
  await page.keyboard.press('Enter');
  await (
    await chooser
  ).setFiles({
    name: 'Dock.svg',
    mimeType: 'image/svg+xml',
    buffer: Buffer.from(DOCK_DRAWING),
  });
  await expect(form(page).getByText('dock.svg')).toBeVisible();
  await expect(page.getByRole('button', { name: 'Another picture…' })).toBeFocused();
  await tabBackTo(page, 'button', 'Add a point');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('textbox', { name: 'Label of point 1' })).toBeFocused();
  await page.keyboard.type('J1 plus');
  await tabBackTo(page, 'button', /^Point 1, J1 plus/);
  for (let presses = 0; presses < 4; presses += 1) await page.keyboard.press('ArrowLeft');
  await expect(page.getByRole('button', { name: /^Point 1, J1 plus: (?!50\.0)/ })).toBeFocused();
}

/** With blanks in it the tree cannot be published, and the dialog that says so leads to one of them. */
export async function publishTooSoon(page: Page): Promise<void> {
  await paneTo(page, 'outline');
  await tabBackTo(page, 'button', 'Publish…');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog')).toContainText(/errors stop it from being published/);
  await expect(page.getByRole('dialog').getByRole('button', { name: 'Publish', exact: true })).toHaveCount(0);
  await tabTo(page, 'button', /^Go to .*: This text is empty/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog')).toBeHidden();
  await expect(form(page).locator('textarea:focus')).toHaveValue('');
}

/** Everything that the checks still miss, from each check to its place. */
export async function fillBlanks(page: Page): Promise<void> {
  for (let left = 60; left > 0 && (await blanks(page).count()) > 0; left -= 1) {
    const count = await blanks(page).count();
    await paneTo(page, 'checks');
    await tabTo(page, 'button', /^Go to .*: This text is empty/);
    await page.keyboard.press('Enter');
    await expect(form(page).locator('textarea:focus')).toHaveValue('');
    await page.keyboard.type(WRITTEN);
    await expect(blanks(page)).toHaveCount(count - 1);
  }
}

export async function publish(page: Page): Promise<void> {
  await paneTo(page, 'outline');
  await tabBackTo(page, 'button', 'Publish…');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('textbox', { name: 'Note' })).toBeFocused();
  await page.keyboard.type('First tree for the dock.');
  await tabTo(page, 'button', 'Publish');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Trees', level: 1 })).toBeVisible();
  await expect(page.getByRole('row', { name: line(title) })).toContainText('Mara');
}
