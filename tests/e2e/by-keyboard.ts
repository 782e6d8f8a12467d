import { expect, type Locator, type Page } from '@playwright/test';
import { tabTo } from './bench.ts';

/** The workspace of the Trees area as somebody has it who uses no mouse: nothing here clicks, fills in or moves the focus by script. */

type Pane = 'outline' | 'middle' | 'form' | 'checks';

/** Goes from pane to pane with F6 until the focus is in that one. */
export async function paneTo(page: Page, pane: Pane): Promise<void> {
  const focused = page.locator(`[data-pane="${pane}"] :focus, [data-pane="${pane}"]:focus`);
  for (let presses = 0; presses < 5; presses += 1) {
    if ((await focused.count()) > 0) return;
    await page.keyboard.press('F6');
  }
  throw new Error(`F6 does not come to the ${pane}.`);
}

/** Tab, backwards. */
export async function tabBackTo(page: Page, role: 'button' | 'link', name: string | RegExp): Promise<void> {
  const wanted = page.getByRole(role, { name, exact: typeof name === 'string' });
  for (let presses = 0; presses < 40; presses += 1) {
    if (await holdsFocus(wanted)) return;
    await page.keyboard.press('Shift+Tab');
  }
  throw new Error(`The keyboard does not come back to the ${role} ${String(name)}.`);
}

async function holdsFocus(wanted: Locator): Promise<boolean> {
  return wanted.evaluateAll((all) => all.includes(document.activeElement as HTMLElement));
}

/** The line of the outline that the keys are at, as the outline tells it to a screen reader. */
export async function lineAt(page: Page): Promise<string> {
  const tree = page.getByRole('tree', { name: 'Parts of the tree' });
  await expect(tree).toBeFocused();
  const id = await tree.getAttribute('aria-activedescendant');
  const words = await page.locator(`[id="${id ?? ''}"]`).innerText();
  return words
    .replace(/^[+−]\s*/, '')
    .replace(/\s+/g, ' ')
    .trim();
}

/** A line of the outline that begins with these words. */
export function line(words: string): RegExp {
  return new RegExp(`^${words.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&')}`);
}

/** Goes down the outline from its top to the first line that reads so. */
export async function lineTo(page: Page, words: RegExp): Promise<void> {
  await paneTo(page, 'outline');
  await page.keyboard.press('Home');
  for (let presses = 0; presses < 120; presses += 1) {
    const line = await lineAt(page);
    if (words.test(line)) return;
    await page.keyboard.press('ArrowDown');
  }
  throw new Error(`The outline has no line ${String(words)} that the keys come to.`);
}

/** Goes to a heading of the outline and adds what belongs under it. */
export async function addUnder(page: Page, heading: RegExp, ...texts: readonly string[]): Promise<void> {
  await lineTo(page, heading);
  await page.keyboard.press('+');
  await expect(page.getByRole('dialog')).toBeVisible();
  for (const [index, text] of texts.entries()) {
    if (index > 0) await page.keyboard.press('Tab');
    await page.keyboard.type(text);
  }
  await page.keyboard.press('Enter');
  await expect(page.getByRole('dialog')).toBeHidden();
}

/** In the dialog that asks where a branch leads: types a name, and takes the first line, or the one so many below it. */
export async function lead(page: Page, name: string, below = 0): Promise<void> {
  const dialog = page.getByRole('dialog');
  await expect(dialog.getByRole('searchbox')).toBeFocused();
  await page.keyboard.type(name);
  if (below > 0) for (let presses = 0; presses <= below; presses += 1) await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await expect(dialog).toBeHidden();
}

/** Tabs to a list box and goes through its options by the arrow keys to that one. */
export async function pick(page: Page, label: string, option: string): Promise<void> {
  await tabTo(page, 'combobox', label);
  const list = page.locator('select:focus');
  const chosen = async (): Promise<string> =>
    list.evaluate((select: HTMLSelectElement) => select.selectedOptions[0]?.label ?? '');
  await page.keyboard.press('Home');
  for (let presses = 0; presses < 30 && (await chosen()) !== option; presses += 1)
    await page.keyboard.press('ArrowDown');
  expect(await chosen()).toBe(option);
}

/** Tabs to a text field, puts this in place of what is in it, and leaves it. */
export async function write(page: Page, label: string, text: string): Promise<void> {
  await tabTo(page, 'textbox', label);
  await page.keyboard.press('Control+a');
  await page.keyboard.type(text);
  await page.keyboard.press('Tab');
}
