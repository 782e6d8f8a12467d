import { expect, test, type Page } from '@playwright/test';
import { sayWhoWorks, walkTo } from './bench.ts';
import { newDatabase, openShop } from './shop.ts';
import {
  DOCK_DRAWING,
  drawing,
  blanks,
  expectSound,
  FAULTY,
  form,
  SOUND,
  TURNSTONE,
  way,
} from './turnstone.ts';

test('a tree is made from nothing with the mouse, published, and walked at the bench', async ({ page }) => {
  test.setTimeout(180_000);
  page.setDefaultTimeout(20_000);
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await page.getByRole('button', { name: 'New tree' }).click();
  await page.getByLabel('Title').fill(TURNSTONE.title);
  await page.getByLabel('Family of units').fill(TURNSTONE.family);
  await page.getByRole('button', { name: 'Begin the draft' }).click();
  await expect(page.getByRole('heading', { name: TURNSTONE.title, level: 1 })).toBeVisible();

  await drawPath(page);
  await measure(page);
  await barPower(page);
  await showWhere(page);
  await fillBlanks(page);
  await expectSound(page);

  await page.getByRole('button', { name: 'Publish…' }).click();
  await page.getByLabel('Note').fill('First tree for the dock.');
  await page.getByRole('button', { name: 'Publish', exact: true }).click();
  await expect(page.getByRole('heading', { name: 'Trees', level: 1 })).toBeVisible();
  await expect(page.getByRole('row', { name: new RegExp(TURNSTONE.title) })).toContainText('Mara');

  await walk(page);
  await shop.stop();
});

/** The path, step by step, from what the drawing offers where nothing leads on yet. */
async function drawPath(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Add a symptom…' }).first().click();
  await page.getByRole('dialog').getByRole('textbox').fill(TURNSTONE.symptom);
  await page.getByRole('dialog').getByRole('button', { name: 'Add', exact: true }).click();
  await drawing(page)
    .getByRole('group', { name: /^Start/ })
    .click();
  for (const [index, { test: title, finding }] of TURNSTONE.path.entries()) {
    if (index > 0) await takeOpen(page, index, SOUND);
    await addHere(page, title);
    await takeOpen(page, index + 1, FAULTY);
    await addHere(page, finding);
  }
  await takeOpen(page, TURNSTONE.path.length, SOUND);
  await addHere(page, TURNSTONE.end);
}

/** Takes a result of a step that leads nowhere yet; the outline brings the step into the drawing's view. */
async function takeOpen(page: Page, step: number, result: string): Promise<void> {
  await page.getByRole('treeitem', { name: new RegExp(`^${String(step)}\\s`) }).click();
  await way(page, new RegExp(`^Step ${String(step)}, .*${result} leads to nothing yet`)).click();
}

/** Adds a test or finding of that name where the drawing stands, or leads to the one that is there. */
async function addHere(page: Page, name: string): Promise<void> {
  await page.getByRole('button', { name: 'Add here' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('searchbox').fill(name);
  const known = dialog.getByRole('button', { name: new RegExp(`^${name} finding`) });
  const kind = TURNSTONE.path.some(({ test }) => test === name) ? 'test' : 'finding';
  const made = dialog.getByRole('button', { name: new RegExp(`^Make a new ${kind} called “${name}”`) });
  await (kind === 'finding' && (await known.count()) > 0 ? known : made).click();
  await expect(dialog).toBeHidden();
}

/** One test is measured, with a limit between its results. */
async function measure(page: Page): Promise<void> {
  await select(page, TURNSTONE.measured);
  await form(page).getByLabel('Instrument').selectOption('Ohms');
  await form(page).getByLabel('Answered by').selectOption('A reading in ohms (Ω)');
  await form(page)
    .getByRole('textbox', { name: `${SOUND} from` })
    .fill('1k');
  await page.keyboard.press('Enter');
  const below = form(page).getByRole('textbox', { name: `${FAULTY} to below` });
  await below.fill('1k');
  await page.keyboard.press('Enter');
  await expect(
    form(page).getByRole('slider', { name: `Limit between ${FAULTY} and ${SOUND}` }),
  ).toHaveAttribute('aria-valuetext', '1 kΩ');
}

/** Power stays off until the supply has been measured; a later test needs it on. */
async function barPower(page: Page): Promise<void> {
  await toTheEndOfTheOutline(page);
  await page.getByRole('treeitem', { name: /^Bench states/ }).click();
  await page.getByRole('button', { name: 'Add bench states…' }).click();
  const states = page.getByRole('dialog', { name: 'New bench states' });
  await states.getByLabel('What is changed over').fill(TURNSTONE.axis.title);
  await states.getByLabel('How a unit comes to the bench').fill(TURNSTONE.axis.start);
  await states.getByLabel('How else it can stand').fill(TURNSTONE.axis.other);
  await states.getByRole('button', { name: 'Add', exact: true }).click();
  await select(page, TURNSTONE.powered);
  await form(page).getByLabel('Power').selectOption(TURNSTONE.axis.other);
  await toTheEndOfTheOutline(page);
  await page.getByRole('treeitem', { name: /^Interlocks/ }).click();
  await page.getByRole('button', { name: 'Add an interlock…' }).click();
  const lock = page.getByRole('dialog', { name: 'A new interlock' });
  await lock.getByLabel('Barred is the changeover into').selectOption(`Power: ${TURNSTONE.axis.other}`);
  await lock.getByLabel('Until this test has given its first result').selectOption(TURNSTONE.measured);
  await lock.getByRole('button', { name: 'Add', exact: true }).click();
  await expect(page.getByRole('treeitem', { name: `Power: ${TURNSTONE.axis.other}` })).toBeVisible();
}

async function toTheEndOfTheOutline(page: Page): Promise<void> {
  await page.getByRole('tree').hover();
  await page.mouse.wheel(0, 10_000);
}

/** A drawing with a place to probe. */
async function showWhere(page: Page): Promise<void> {
  await select(page, TURNSTONE.measured);
  const file = { name: 'Dock.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(DOCK_DRAWING) };
  await form(page)
    .getByLabel(/^Picture for /)
    .setInputFiles(file);
  await expect(form(page).getByText('dock.svg')).toBeVisible();
  await form(page)
    .getByLabel('Put a point down on the picture')
    .click({ position: { x: 80, y: 60 } });
  await form(page).getByLabel('Label of point 1').fill('C1');
}

/** Everything that the checks still miss, one after another from the check to its place. */
async function fillBlanks(page: Page): Promise<void> {
  for (let left = 60; left > 0 && (await blanks(page).count()) > 0; left -= 1) {
    const first = blanks(page).first();
    const words = await first.getAttribute('aria-label');
    await first.click();
    await page.keyboard.type('Written down by Mara.');
    await expect(page.getByRole('button', { name: words ?? '', exact: true })).toHaveCount(0);
  }
}

async function select(page: Page, title: string): Promise<void> {
  await page.getByRole('button', { name: 'Find', exact: true }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByRole('searchbox').fill(title);
  await dialog.getByRole('button', { name: new RegExp(`^${title}\\s+test$`) }).click();
  await expect(form(page).getByRole('heading', { name: title, level: 2 })).toBeVisible();
}

/** A job on the new tree, from its symptom to the finding behind the third test. */
async function walk(page: Page): Promise<void> {
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Bench' }).click();
  await page.getByRole('button', { name: 'New job' }).click();
  await page.getByRole('textbox', { name: 'Serial' }).fill('TS1-0007');
  await page.getByRole('radio', { name: TURNSTONE.family, exact: true }).check();
  await page.getByRole('radio', { name: TURNSTONE.symptom, exact: true }).check();
  await page.getByRole('button', { name: 'Start the job' }).click();
  await expect(page.getByRole('region', { name: 'Job TS1-0007' })).toBeVisible();
  await page.getByRole('button', { name: 'Begin' }).click();
  await expect(page.getByRole('heading', { name: 'Dock by eye', level: 2 })).toBeVisible();
  await page.keyboard.press('1');
  await expect(page.getByRole('heading', { name: 'Supply to ground', level: 2 })).toBeVisible();
  await expect(page.getByRole('img', { name: /Where to probe: 1 C1/ })).toBeVisible();
  // Past the interlock, which this reading opens, and the changeover to power on.
  const answers = { 'Supply to ground': '4k7', 'Supply at the jack': '2' };
  await walkTo(page, 'Start the remedy', answers);
  await expect(page.getByRole('heading', { name: 'Jack joint broken' })).toBeVisible();
}
