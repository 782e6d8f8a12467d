import { readFile } from 'node:fs/promises';
import AxeBuilder from '@axe-core/playwright';
import { expect, test, type Page } from '@playwright/test';
import { openRecords } from '../../main/records/index.ts';
import { readAndCheck } from '../../trees/document/index.ts';
import { dunlinDocument } from '../support/dunlin-tree.ts';
import { png, svg } from '../support/pictures.ts';
import { expectNoViolation } from './axe.ts';
import { sayWhoWorks } from './bench.ts';
import { newDatabase, openShop, type Shop } from './shop.ts';

const READ_PANEL = 'Read Kittiwake KW-1, refitted panel';

/** A shop of one technician with the list of trees in front. */
async function treesIn(page: Page, file = newDatabase()): Promise<Shop> {
  const shop = await openShop(file);
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await expect(page.getByRole('heading', { name: 'Trees', level: 1 })).toBeVisible();
  return shop;
}

/** A database with a tree that no other shop has, one of its tests showing a photograph. */
async function shopWithDunlin(): Promise<string> {
  const file = newDatabase();
  const document = dunlinDocument();
  const [first] = Object.values(document.tests);
  if (first !== undefined)
    first.picture = { file: 'dunlin-board.png', points: [{ x: 0.3, y: 0.4, label: 'TP1' }] };
  const bytes = new TextEncoder().encode(`${JSON.stringify(document, null, 1)}\n`);
  const { tree } = readAndCheck(bytes);
  const opening = openRecords({ file });
  if (tree === null || !opening.ok) throw new Error('the Dunlin’s tree cannot be put into the records');
  const pictures = [{ file: 'dunlin-board.png', bytes: png(320, 240) }];
  opening.records.addRevision({ bytes, tree, source: 'published', note: '', pictures });
  await opening.records.close();
  return file;
}

async function exported(page: Page, what: string): Promise<{ name: string; bytes: Buffer }> {
  await page.getByRole('button', { name: 'Export…' }).click();
  const saving = page.waitForEvent('download');
  await page.getByRole('dialog', { name: 'Export' }).getByRole('button', { name: what }).click();
  const saved = await saving;
  await expect(page.getByRole('dialog')).toHaveCount(0);
  return { name: saved.suggestedFilename(), bytes: await readFile(await saved.path()) };
}

/** What a rule for pages puts at the foot of each, as CSS has it; null where none does. */
const footOfLeaves = (page: Page): Promise<string | null> =>
  page.evaluate(() => {
    const texts = document.adoptedStyleSheets.flatMap((sheet) =>
      [...sheet.cssRules].map(({ cssText }) => cssText),
    );
    return /@bottom-left \{ content: (".*?");/.exec(texts.join(' '))?.[1] ?? null;
  });

const importer = (page: Page) => page.getByLabel('Tree to import: a zip, or a .tree.json');

test('a tree goes out of one shop and into another, where it is the same to the byte', async ({ page }) => {
  const there = await treesIn(page, await shopWithDunlin());
  await page.getByRole('link', { name: /^Read Dunlin/ }).click();
  const zip = await exported(page, 'Tree with its pictures');
  expect(zip.name).toMatch(/^dunlin.*\.zip$/);
  await there.stop();

  const here = await treesIn(page);
  await expect(page.getByRole('link', { name: /^Read Dunlin/ })).toHaveCount(0);
  await importer(page).setInputFiles({ name: zip.name, mimeType: 'application/zip', buffer: zip.bytes });
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await expect(page.getByRole('heading', { level: 1, name: /Dunlin/ })).toBeVisible();
  expect((await exported(page, 'Tree with its pictures')).bytes.equals(zip.bytes)).toBe(true);
  await here.stop();
});

test('a file of a tree that the shop has is told how it stands to that, before anything is published of it', async ({
  page,
}) => {
  const shop = await treesIn(page);
  const text = await readFile(new URL('../../trees/library/kw1-panel.tree.json', import.meta.url), 'utf8');
  const take = (name: string, document: string): Promise<void> =>
    importer(page).setInputFiles({ name, mimeType: 'application/json', buffer: Buffer.from(document) });
  const dialog = page.getByRole('dialog', { name: 'The shop has this tree' });

  await take('kept.tree.json', text);
  const refused = page.getByRole('dialog', { name: 'Import' });
  await expect(refused).toContainText('“kept.tree.json” is the same as the tree’s current revision');
  await refused.getByRole('button', { name: 'Leave it' }).click();
  await expect(page.getByText(/^from a file, imported/)).toHaveCount(0);

  await take('theirs.tree.json', text.replace('"minutes": 0.6', '"minutes": 0.9'));
  await expect(dialog).toContainText(
    '“theirs.tree.json” has become a draft on the tree’s current revision (came with Ohmward',
  );
  await expect(dialog).toContainText('1 part differs: 1 changed.');
  await expectNoViolation(page, 'a tree taken in that the shop has');
  await dialog.getByRole('button', { name: 'See what differs' }).click();
  await expect(page.getByRole('status').filter({ hasText: 'differ' })).toHaveText(
    '1 part differs: 1 changed.',
  );
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await expect(page.getByText(/^from a file, imported/)).toHaveCount(1);
  await shop.stop();
});

test('a file that is no tree is refused in plain words, chosen or dropped, and nothing is kept of it', async ({
  page,
}) => {
  const shop = await treesIn(page);
  await importer(page).setInputFiles({
    name: 'notes.txt',
    mimeType: 'text/plain',
    buffer: Buffer.from('hello'),
  });
  const dialog = page.getByRole('dialog', { name: 'Import' });
  await expect(dialog.getByRole('alert')).toContainText('“notes.txt” was not taken in.');
  await expectNoViolation(page, 'an import refused');
  await dialog.getByRole('button', { name: 'Leave it' }).click();

  const transfer = await page.evaluateHandle(() => {
    const held = new DataTransfer();
    held.items.add(new File(['PK\u0003\u0004'], 'tree.zip'));
    return held;
  });
  await page.dispatchEvent('main', 'dragover', { dataTransfer: transfer });
  await expect(page.getByText('Drop the tree’s zip')).toBeVisible();
  await page.dispatchEvent('main', 'drop', { dataTransfer: transfer });
  await expect(dialog.getByRole('alert')).toContainText('The zip is damaged');
  await dialog.getByRole('button', { name: 'Leave it' }).click();
  await expect(page.getByRole('heading', { name: 'Trees', level: 1 })).toBeVisible();
  await shop.stop();
});

test('a tree goes out as a statechart', async ({ page }) => {
  const shop = await treesIn(page);
  await page.getByRole('link', { name: READ_PANEL }).click();
  await page.getByRole('button', { name: 'Export…' }).click();
  await expectNoViolationIn(page, '[role=dialog]');
  await page.keyboard.press('Escape');
  const { name, bytes } = await exported(page, 'Statechart');
  expect(name).toBe('kw1-panel.scxml');
  expect(bytes.toString()).toContain('<scxml xmlns="http://www.w3.org/2005/07/scxml"');
  await shop.stop();
});

test('a tree goes onto paper: several pages, every test and finding, and nothing cut off', async ({
  page,
}) => {
  const shop = await treesIn(page);
  await page.getByRole('link', { name: READ_PANEL }).click();
  await page.getByRole('button', { name: 'Export…' }).click();
  await page.getByRole('button', { name: 'Sheet to print' }).click();
  const sheet = page.getByRole('article');
  await expect(sheet.getByRole('heading', { level: 1 })).toHaveText('Kittiwake KW-1, refitted panel');
  for (const part of ['Bench states', 'Interlocks', 'A · No power LED', 'Tests', 'Findings'])
    await expect(sheet.getByRole('heading', { name: part, exact: true })).toBeVisible();
  await expect(sheet.getByRole('row', { name: 'Enough 4.8 V or more go to' }).first()).toBeVisible();
  // A4 within the page's margins, as print.css has them.
  await page.setViewportSize({ width: 688, height: 1000 });
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  await expect(page.getByRole('button', { name: 'Print' })).toBeHidden();
  await expect(page.locator('html')).toHaveCSS('background-color', 'rgb(255, 255, 255)');
  expect(await cutOff(page)).toEqual([]);
  const tallest = await page
    .locator('.step, .test, .act')
    .evaluateAll((blocks) => Math.max(...blocks.map((block) => block.getBoundingClientRect().height)));
  expect(tallest).toBeLessThan(1000);
  const pdf = (await page.pdf({ format: 'A4' })).toString('latin1');
  const pages = pdf.match(/\/Type\s*\/Page(?!s)/g)?.length ?? 0;
  expect(pages).toBeGreaterThan(10);
  expect(pages).toBeLessThan(70);
  expect(await footOfLeaves(page)).toMatch(
    /^"Kittiwake KW-1, refitted panel · revision of .*, SHA-256 [0-9a-f]{10}…"$/,
  );
  await page.emulateMedia({ media: 'screen' });
  await page.getByRole('link', { name: 'Back to the tree' }).click();
  await expect(page.getByRole('button', { name: 'Export…' })).toBeVisible();
  expect(await footOfLeaves(page)).toBeNull();
  await shop.stop();
});

test('a draft goes onto paper as a draft', async ({ page }) => {
  const shop = await treesIn(page, await shopWithDunlin());
  await page.getByRole('button', { name: /^Edit Dunlin/ }).click();
  await page.getByRole('button', { name: 'Export…' }).click();
  await page.getByRole('button', { name: 'Sheet to print' }).click();
  await expect(page.getByRole('article')).toContainText('Draft, not published.');
  await expectNoViolation(page, 'the sheet of a tree');
  await page.getByRole('link', { name: 'Back to the tree' }).click();
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await shop.stop();
});

test('a picture is taken in, sanitised, and its points put down, moved and named by mouse and by keyboard', async ({
  page,
}) => {
  const shop = await treesIn(page);
  await page.getByRole('button', { name: 'Edit Kittiwake KW-1, refitted panel' }).click();
  await page.getByText('Cells and springs', { exact: true }).first().click();
  const form = page.locator('.picture');
  await expect(form.getByRole('img')).toBeVisible();
  await expect(form.getByRole('textbox')).toHaveCount(2);

  const surface = form.getByRole('button', { name: 'Put a point down' });
  const box = await surface.boundingBox();
  if (box === null) throw new Error('the picture has no place');
  await surface.click({ position: { x: box.width * 0.5, y: box.height * 0.25 } });
  const label = form.getByRole('textbox', { name: 'Label of point 3' });
  await expect(label).toBeFocused();
  await page.keyboard.type('TP9');

  const point = form.getByRole('button', {
    name: /^Point 3, TP9: 50\.0 % from the left, 25\.\d % from the top/,
  });
  await point.focus();
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Shift+ArrowRight');
  await expect(form.getByRole('button', { name: /^Point 3, TP9: 51\.1 % from the left/ })).toBeFocused();

  // What says whether all is kept may move what is below it.
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  const at = await form.getByRole('button', { name: /^Point 3,/ }).boundingBox();
  if (at === null) throw new Error('the point has no place');
  await page.mouse.move(at.x + at.width / 2, at.y + at.height / 2);
  await page.mouse.down();
  const across = (0.2 - 0.511) * box.width;
  await page.mouse.move(at.x + at.width / 2 + across, at.y + at.height / 2 + 0.5 * box.height, { steps: 4 });
  await page.mouse.up();
  await expect(
    form.getByRole('button', { name: /^Point 3, TP9: (?:19|20)\.\d % from the left, (?:74|75)\.\d % / }),
  ).toBeVisible();

  await form.getByRole('button', { name: 'Move point 3, TP9 up' }).click();
  await expect(form.getByRole('textbox', { name: 'Label of point 2' })).toHaveValue('TP9');

  const chooser = form.getByLabel('Picture for Cells and springs: PNG, JPEG or SVG');
  await chooser.setInputFiles({ name: 'a.png', mimeType: 'image/png', buffer: Buffer.from('hello') });
  await expect(form.getByRole('alert')).toContainText('“a.png” was not taken.');
  const drawing = svg('<rect width="40" height="30" fill="#fff"/><script>document.title = "run"</script>');
  await chooser.setInputFiles({
    name: 'New board.svg',
    mimeType: 'image/svg+xml',
    buffer: Buffer.from(drawing),
  });
  await expect(form.getByText('new-board.svg', { exact: true })).toBeVisible();
  await expect(form.getByRole('alert')).toHaveCount(0);
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  const source = await form.getByRole('img').getAttribute('src');
  const [, base64 = ''] = /^data:image\/svg\+xml;base64,(.*)$/.exec(source ?? '') ?? [];
  expect(Buffer.from(base64, 'base64').toString()).not.toContain('script');

  await expectNoViolationIn(page, '.picture');
  await shop.stop();
});

/** As {@link expectNoViolation}, of one part of the screen. */
async function expectNoViolationIn(page: Page, part: string): Promise<void> {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    const { violations } = await new AxeBuilder({ page }).include(part).analyze();
    expect(
      violations.map(({ id }) => id),
      `${part}, ${colorScheme}`,
    ).toEqual([]);
  }
}

/** Words on the sheet that reach past its edge, or past the edge of what cuts them off. */
function cutOff(page: Page): Promise<string[]> {
  return page.getByRole('article').evaluate((article) => {
    const { left, right } = article.getBoundingClientRect();
    const walker = document.createTreeWalker(article, NodeFilter.SHOW_TEXT);
    const cut: string[] = [];
    for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
      const words = node.textContent?.trim() ?? '';
      if (words === '' || (node.parentElement?.closest('.unseen, svg') ?? null) !== null) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const rect of range.getClientRects())
        if (rect.left < left - 1 || rect.right > right + 1) cut.push(words);
    }
    return cut;
  });
}
