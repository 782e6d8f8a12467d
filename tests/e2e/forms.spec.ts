import { readFileSync } from 'node:fs';
import { expect, test, type Locator, type Page } from '@playwright/test';
import { readAndCheck } from '../../trees/document/index.ts';
import { expectNoViolation } from './axe.ts';
import { sayWhoWorks } from './bench.ts';
import { newDatabase, openShop, type Shop } from './shop.ts';

const TITLE = 'Kittiwake KW-1, USB-C charging board';
const LIBRARY = new URL('../../trees/library/', import.meta.url);

let shop: Shop;

test.beforeEach(async ({ page }) => {
  shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
});

test.afterEach(() => shop.stop());

async function openDraft(page: Page): Promise<void> {
  await page.getByRole('button', { name: `Edit ${TITLE}` }).click();
  await expect(page.getByRole('heading', { name: TITLE, level: 1 })).toBeVisible();
}

function form(page: Page): Locator {
  return page.locator('[data-form]');
}

/** Selects a part in the outline. */
async function select(page: Page, title: string): Promise<void> {
  await page.getByRole('tree').getByRole('treeitem', { name: title }).first().click();
  await expect(form(page).getByRole('heading', { level: 2 })).toContainText(title);
}

/** The part of a form under a heading. */
function part(page: Page, name: string): Locator {
  return form(page).getByRole('region', { name, exact: true });
}

test('what is typed is in the draft at once, is one step to undo, and the field follows', async ({
  page,
}) => {
  await openDraft(page);
  await select(page, 'Cell voltage, unplugged');
  const minutes = form(page).getByRole('textbox', { name: 'Minutes' });
  await expect(minutes).toHaveValue('0.5');
  await minutes.fill('');
  await minutes.pressSequentially('0,75');
  await expect(page.getByRole('treeitem', { name: 'Cell voltage, unplugged' })).toContainText('0.75 min');
  await expect(minutes).toHaveValue('0,75');
  await page.keyboard.press('Tab');
  await expect(minutes).toHaveValue('0.75');
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(minutes).toHaveValue('0.5');
  await expect(page.getByRole('button', { name: 'Undo' })).toBeDisabled();
  await page.keyboard.press('Control+Shift+z');
  await expect(minutes).toHaveValue('0.75');
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await page.reload();
  await select(page, 'Cell voltage, unplugged');
  await expect(minutes).toHaveValue('0.75');
});

test('what the document does not take stays in its field with why, also when one comes back to it', async ({
  page,
}) => {
  await openDraft(page);
  await select(page, 'Cell voltage, unplugged');
  const reliability = form(page).getByRole('textbox', { name: 'Reliability' });
  await reliability.fill('99.9');
  await reliability.pressSequentially('9x');
  await expect(form(page).getByRole('alert')).toHaveText('Type a plain number, such as 12 or 0.5.');
  await expect(reliability).toHaveAttribute('aria-invalid', 'true');
  await select(page, 'Board, by eye');
  await expect(form(page).getByRole('alert')).toHaveCount(0);
  await select(page, 'Cell voltage, unplugged');
  await expect(reliability).toHaveValue('99.99x');
  await expect(form(page).getByRole('alert')).toBeVisible();
  // The first undo takes what was never in the document, the next one the edit.
  await reliability.press('Control+z');
  await expect(reliability).toHaveValue('99.99');
  await reliability.press('Control+z');
  await expect(reliability).toHaveValue('99.5');
});

test('a remedy’s steps are added, moved and removed by keyboard, the focus staying with them', async ({
  page,
}) => {
  await openDraft(page);
  await select(page, 'No charge LED');
  await part(page, 'Weights').getByRole('button', { name: 'Cell below its cut-off' }).click();
  const remedy = part(page, 'Remedy');
  const steps = remedy.getByRole('textbox', { name: /^Step \d/ });
  const before = await steps.evaluateAll((all) => all.map((one) => (one as HTMLTextAreaElement).value));
  expect(before).toHaveLength(3);
  await steps.nth(0).focus();
  await page.keyboard.press('Alt+ArrowDown');
  await expect(steps.nth(1)).toBeFocused();
  await expect(steps.nth(1)).toHaveValue(before[0] ?? '');
  await page.keyboard.press('Alt+ArrowDown');
  await page.keyboard.press('Alt+ArrowDown');
  await expect(steps.nth(2)).toBeFocused();
  await expect(steps.nth(2)).toHaveValue(before[0] ?? '');
  await remedy.getByRole('button', { name: 'Add step' }).press('Enter');
  await expect(steps.nth(3)).toBeFocused();
  await page.keyboard.type('Tape the contacts.');
  await remedy.getByRole('button', { name: 'Move step 4 up' }).press('Enter');
  await expect(remedy.getByRole('button', { name: 'Move step 3 up' })).toBeFocused();
  await expect(steps.nth(2)).toHaveValue('Tape the contacts.');
  await remedy.getByRole('button', { name: 'Remove step 1' }).press('Enter');
  await expect(steps).toHaveCount(3);
  await expect(steps.nth(0)).toBeFocused();
  await expect(steps.nth(0)).toHaveValue(before[2] ?? '');
});

test('a finding says what it makes a test give: as the paths say, always one result, or shares', async ({
  page,
}) => {
  await openDraft(page);
  await select(page, 'No charge LED');
  await part(page, 'Weights').getByRole('button', { name: 'Cell below its cut-off' }).click();
  const expects = part(page, 'What it makes tests give');
  const saying = expects.getByRole('combobox', { name: 'What VBUS to ground gives' });
  await expect(saying).toHaveValue('result:clear');
  await saying.selectOption({ label: 'In shares' });
  await expect(expects.getByRole('textbox', { name: 'Clear' })).toHaveValue('100');
  await expects.getByRole('textbox', { name: 'Clear' }).fill('90 %');
  await expect(expects.getByText('Together 90 %: they must make up 100 %')).toBeVisible();
  await saying.selectOption({ label: 'Always Clear' });
  await expect(expects.getByText('Together 90 %')).toHaveCount(0);
});

test('a test that comes to be answered by choosing loses its bands, and undo brings them back', async ({
  page,
}) => {
  await openDraft(page);
  await select(page, 'Cell voltage, unplugged');
  const results = part(page, 'Results');
  await expect(results.getByRole('textbox', { name: /^Result 1: of a sound unit/ })).toHaveValue(
    'Above cut-off',
  );
  await expect(results.getByText('to below')).toBeVisible();
  await results
    .getByRole('combobox', { name: 'Answered by' })
    .selectOption({ label: 'Choosing one of the results' });
  await expect(results.getByText('to below')).toHaveCount(0);
  await page.getByRole('button', { name: 'Undo' }).click();
  await expect(results.getByText('to below')).toBeVisible();
  await results.getByRole('textbox', { name: 'Another result' }).fill('Wanders');
  await page.keyboard.press('Enter');
  await expect(results.getByRole('textbox', { name: 'Result 6' })).toHaveValue('Wanders');
  await results.getByRole('button', { name: 'Remove result 6' }).click();
  await expect(page.getByRole('dialog')).toContainText('Wanders');
});

test('a text that is still blank is found by the checks, and going there puts the keys into its field', async ({
  page,
}) => {
  await openDraft(page);
  await select(page, 'Board, by eye');
  const cautions = part(page, 'Cautions');
  const before = await cautions.getByRole('textbox').count();
  await cautions.getByRole('button', { name: 'Add caution' }).click();
  await expect(cautions.getByRole('textbox')).toHaveCount(before + 1);
  await select(page, 'Receptacle, by eye');
  await page.getByRole('button', { name: /^Go to Test “Board, by eye”/ }).click();
  await expect(cautions.getByRole('textbox').last()).toBeFocused();
  await page.keyboard.type('Mind the glass.');
  await expect(page.getByRole('button', { name: /^Go to Test “Board, by eye”/ })).toHaveCount(0);
  // Taken out again, the form stays at its test.
  await cautions.getByRole('button', { name: `Remove caution ${String(before + 1)}` }).click();
  await expect(form(page).getByRole('heading', { level: 2 })).toHaveText('Board, by eye');
});

test('a picture is taken into the draft and is there again after a reload', async ({ page }) => {
  await openDraft(page);
  await select(page, 'Board, by eye');
  await part(page, 'Picture')
    .locator('input[type=file]')
    .setInputFiles({
      name: 'Our board.svg',
      mimeType: 'image/svg+xml',
      buffer: readFileSync(new URL('usbc-board.svg', LIBRARY)),
    });
  await expect(part(page, 'Picture').getByText('our-board.svg')).toBeVisible();
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await page.reload();
  await select(page, 'Board, by eye');
  await expect(part(page, 'Picture').getByRole('img').first()).toBeVisible();
  await expect(part(page, 'Picture').getByText('our-board.svg')).toBeVisible();
});

test('a weight given in a form is what the drawing and the symptom’s weights come to', async ({ page }) => {
  await openDraft(page);
  await select(page, 'No charge LED');
  const weights = part(page, 'Weights');
  await expect(weights.getByText('They follow from the branches’ weights')).toBeVisible();
  await weights.getByRole('button', { name: 'Give them by finding' }).click();
  const given = weights.getByRole('textbox', { name: 'Source or cable at fault' });
  await expect(given).toBeFocused();
  await weights.getByRole('button', { name: 'Let them follow from the branches' }).click();
  await expect(given).toHaveCount(0);
  await part(page, 'Path').getByRole('button', { name: 'step 1, Receptacle, by eye' }).click();
  const { tree } = readAndCheck(readFileSync(new URL('kw1-usb-charge.tree.json', LIBRARY)));
  const symptom = Object.values(tree?.symptoms ?? {}).find(({ title }) => title === 'No charge LED');
  const branches = Object.values(symptom?.steps[symptom.first ?? '']?.then ?? {});
  const others = branches.slice(1).reduce((sum, { weight }) => sum + weight, 0);
  const branch = form(page)
    .getByRole('group', { name: /^Branch/ })
    .first();
  await branch.getByRole('textbox', { name: 'Weight' }).fill(String(others));
  await expect(branch).toContainText('50 %');
});

/** Every form in turn, come to by the links between them. */
async function eachForm(page: Page, look: (form: string) => Promise<void>): Promise<void> {
  await look('the form of the tree');
  await select(page, 'No charge LED');
  await look('the form of a symptom');
  await part(page, 'Weights').getByRole('button', { name: 'Cell below its cut-off' }).click();
  await look('the form of a finding');
  await part(page, 'Proof').getByRole('button', { name: 'Cell voltage, unplugged' }).click();
  await look('the form of a test');
  await part(page, 'Where it is used').getByRole('button', { name: 'No charge LED, step 4' }).click();
  await look('the form of a step');
  await part(page, 'Test').getByRole('button', { name: 'Cell voltage, unplugged' }).click();
  await part(page, 'Where it is used')
    .getByRole('button', { name: 'Power: Cable in and cell plugged' })
    .click();
  await look('the form of an interlock');
  await part(page, 'Barred changeover').getByRole('button', { name: 'To its changeovers' }).click();
  await look('the form of bench states');
}

test('every form is accessible in both themes', async ({ page }) => {
  test.slow();
  await openDraft(page);
  await eachForm(page, (name) => expectNoViolation(page, name));
});

test('in a published revision every form shows all it has, and nothing of it can be edited', async ({
  page,
}) => {
  await page.getByRole('link', { name: TITLE, exact: true }).click();
  await expect(page.getByRole('heading', { name: TITLE, level: 1 })).toBeVisible();
  await eachForm(page, async (name) => {
    const fields = form(page).locator('input, textarea');
    await expect(fields.first(), name).toBeVisible();
    await expect(
      form(page).locator('input:not([readonly]), textarea:not([readonly]), select'),
      name,
    ).toHaveCount(0);
    await expect(
      form(page).getByRole('button', { name: /…$|^(Add|Remove|Move|Leave|Copy it|Say nothing|Give them)\b/ }),
      name,
    ).toHaveCount(0);
  });
  await expect(form(page).getByRole('textbox', { name: 'Title' })).toHaveValue('Power');
});
