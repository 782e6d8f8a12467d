import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { expect, test } from '@playwright/test';
import { record } from './bench.ts';
import { begun, fitFuse, proveFuse } from './repairs.ts';

const tree = new URL('../../trees/library/kw1-panel.tree.json', import.meta.url);

test('the job sheet tells unit, readings, finding, remedy, parts, proof, outcome, cautions and tree', async ({
  page,
}) => {
  const shop = await begun(page);
  await page.keyboard.press('s');
  await page.getByRole('dialog').getByRole('textbox', { name: 'Reason' }).fill('Door stuck');
  await page.getByRole('radio', { name: 'Go on as if it had given “Right way, bright”' }).check();
  await record(page, () => page.keyboard.press('Enter'));
  await fitFuse(page);
  await proveFuse(page);
  await page.getByRole('link', { name: 'Job sheet' }).first().click();

  const sheet = page.getByRole('article');
  await expect(sheet.getByRole('heading', { name: 'Job sheet' })).toBeVisible();
  for (const told of ['KW1-0042', 'L-118', 'Kittiwake KW-1, board A2', 'No power LED', 'Mara', 'Fixed'])
    await expect(sheet).toContainText(told);
  await expect(sheet.getByRole('row', { name: /Cells, at rest 5\.9 V Enough from 4\.8 V/ })).toBeVisible();
  await expect(sheet).toContainText('Cells and springs: Door stuck (gone on as if “Right way, bright”)');
  await expect(sheet.getByRole('heading', { name: 'Fuse F1 open' })).toBeVisible();
  await expect(sheet).toContainText('Remedy done; it mended the unit.');
  await expect(sheet).toContainText('Parts: Fuse 1 A (0.90)');
  const proof = sheet.getByRole('table').filter({ has: page.getByRole('columnheader', { name: 'Proof' }) });
  await expect(proof.getByRole('rowheader')).toHaveText([
    'Fuse F1',
    'Supply to ground',
    '5 V rail to ground',
    'Current at first power',
    'Power LED',
  ]);
  await expect(sheet).toContainText('Measure the supply to ground before any power');
  await expect(sheet).toContainText(createHash('sha256').update(readFileSync(tree)).digest('hex'));
  await shop.stop();
});

test('printed, the sheet stands alone on white', async ({ page }) => {
  const shop = await begun(page);
  await page.getByRole('link', { name: 'Job sheet' }).click();
  await expect(page.getByRole('button', { name: 'Print' })).toBeVisible();
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  await expect(page.getByRole('button', { name: 'Print' })).toBeHidden();
  await expect(page.getByRole('navigation')).toHaveCount(0);
  await expect(page.getByRole('article')).toBeVisible();
  await expect(page.locator('html')).toHaveCSS('background-color', 'rgb(255, 255, 255)');
  expect((await page.pdf({ format: 'A4' })).subarray(0, 5).toString()).toBe('%PDF-');
  await shop.stop();
});
