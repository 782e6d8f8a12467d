import { expect, test, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { sayWhoWorks, tabTo } from './bench.ts';
import { newDatabase, openShop } from './shop.ts';

const PANEL = 'Kittiwake KW-1, refitted panel';
const OURS = 'Kittiwake KW-1, our own panel';
const PASSPHRASE = 'lantern street nine';

async function showTrees(page: Page): Promise<void> {
  await page.getByRole('navigation', { name: 'Areas' }).getByRole('link', { name: 'Trees' }).click();
  await expect(page.getByRole('heading', { name: 'Trees', level: 1 })).toBeVisible();
}

/** Opens the draft of a tree from the list and gives it another title. */
async function retitle(page: Page, from: string, to: string): Promise<void> {
  await page.getByRole('button', { name: `Edit ${from}` }).click();
  await expect(page.getByRole('heading', { name: from, level: 1 })).toBeVisible();
  await page.getByRole('textbox', { name: 'Title', exact: true }).fill(to);
  await page.keyboard.press('Tab');
  await expect(page.getByRole('heading', { name: to, level: 1 })).toBeVisible();
  await expect(page.getByText('Draft, all kept')).toBeVisible();
}

async function askToPublish(page: Page, title: string, note: string) {
  await page.getByRole('button', { name: 'Publish…' }).click();
  const dialog = page.getByRole('dialog', { name: `Publish “${title}”` });
  await dialog.getByRole('textbox', { name: 'Note' }).fill(note);
  return dialog;
}

async function setPassphrase(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Shop' }).click();
  const part = page.getByRole('region', { name: 'Publishing trees' });
  await tabTo(page, 'textbox', 'Passphrase');
  await page.keyboard.type(PASSPHRASE);
  await page.keyboard.press('Tab');
  await page.keyboard.type('lantern street');
  await expect(part.getByRole('alert')).toHaveText('The two are not the same.');
  await expect(part.getByRole('button', { name: 'Set the passphrase' })).toBeDisabled();
  await page.keyboard.type(' nine');
  await page.keyboard.press('Enter');
  await expect(part.getByRole('status')).toHaveText('Set.');
  await expectNoViolation(page, 'the shop with a passphrase set');
}

test('a draft is there after a reload and a cut, is gone on with by “Edit”, and is discarded when asked', async ({
  page,
}) => {
  const first = await openShop(newDatabase());
  await page.goto(first.address);
  await sayWhoWorks(page, 'Mara');
  await showTrees(page);
  await expectNoViolation(page, 'the list of trees');
  await retitle(page, PANEL, OURS);
  const draft = page.url();
  await page.reload();
  await expect(page.getByRole('heading', { name: OURS, level: 1 })).toBeVisible();
  await first.kill();

  const second = await openShop(first.file);
  await page.goto(second.address);
  await showTrees(page);
  const row = page.getByRole('row', { name: PANEL });
  await expect(row).toContainText('Mara’s draft');
  await expect(row).toContainText('last changed');
  await row.getByRole('button', { name: `Edit ${PANEL}` }).click();
  await expect(page.getByRole('heading', { name: OURS, level: 1 })).toBeVisible();
  expect(new URL(page.url()).hash).toBe(new URL(draft).hash);

  await showTrees(page);
  await row.getByRole('button', { name: /^Discard Mara’s draft/ }).click();
  const dialog = page.getByRole('dialog', { name: 'Discard this draft?' });
  await expectNoViolation(page, 'discarding a draft');
  await page.keyboard.press('Escape');
  await expect(row).toContainText('Mara’s draft');
  await row.getByRole('button', { name: /^Discard Mara’s draft/ }).click();
  await dialog.getByRole('button', { name: 'Discard the draft' }).click();
  await expect(row).toContainText('None');
  await expect(page.getByRole('heading', { name: 'Trees', level: 1 })).toBeFocused();
  await second.stop();
});

test('a draft is published with a note, and with the passphrase where the shop has set one', async ({
  page,
}) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await showTrees(page);
  await retitle(page, PANEL, OURS);
  const dialog = await askToPublish(page, OURS, 'Our own panel kit since March');
  await expectNoViolation(page, 'publishing without a passphrase');
  await dialog.getByRole('button', { name: 'Publish', exact: true }).click();
  const row = page.getByRole('row', { name: OURS });
  await expect(row).toContainText('Our own panel kit since March');
  await expect(row).toContainText('Published by Mara');
  await expect(row).toContainText('None');

  await setPassphrase(page);
  await showTrees(page);
  await retitle(page, OURS, PANEL);
  const locked = await askToPublish(page, PANEL, 'The former name');
  const field = locked.getByRole('textbox', { name: 'Passphrase for publishing' });
  await field.fill('lantern street ten');
  await page.keyboard.press('Enter');
  await expect(locked.getByRole('alert')).toContainText('That is not the passphrase.');
  await expectNoViolation(page, 'a wrong passphrase');
  await field.fill(PASSPHRASE);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('row', { name: PANEL })).toContainText('The former name');

  await retitle(page, PANEL, OURS);
  const known = await askToPublish(page, OURS, 'Once more');
  await expect(known.getByRole('textbox', { name: 'Passphrase for publishing' })).toBeHidden();
  await known.getByRole('button', { name: 'Publish', exact: true }).click();
  await expect(row).toContainText('Once more');
  await shop.stop();
});

test('the passphrase is changed and taken away on the shop’s page by who knows it', async ({ page }) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await setPassphrase(page);
  const part = page.getByRole('region', { name: 'Publishing trees' });
  await part.getByRole('textbox', { name: 'Passphrase now' }).fill('not this one');
  await part.getByRole('button', { name: 'Take it away' }).click();
  await expect(part.getByRole('alert')).toContainText('That is not the passphrase.');
  await expect(part.getByRole('textbox', { name: 'Passphrase now' })).toBeFocused();
  await part.getByRole('textbox', { name: 'Passphrase now' }).fill(PASSPHRASE);
  await part.getByRole('textbox', { name: 'New passphrase' }).fill('another street two');
  await part.getByRole('textbox', { name: 'The same once more' }).fill('another street two');
  await part.getByRole('button', { name: 'Change the passphrase' }).click();
  await expect(part.getByRole('status')).toHaveText('Changed.');
  await part.getByRole('textbox', { name: 'Passphrase now' }).fill('another street two');
  await part.getByRole('button', { name: 'Take it away' }).click();
  await expect(part.getByRole('status')).toHaveText('Taken away.');
  await expect(part).toContainText('Anybody at the bench may publish a tree.');
  await shop.stop();
});

test('an old revision is published again, and two revisions are chosen to be compared', async ({ page }) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await showTrees(page);
  await retitle(page, PANEL, OURS);
  const dialog = await askToPublish(page, OURS, 'Our own panel kit');
  await dialog.getByRole('button', { name: 'Publish', exact: true }).click();
  await page.getByRole('link', { name: `Revisions of ${OURS}` }).click();
  await expect(page.getByRole('heading', { name: `Revisions of ${OURS}`, level: 1 })).toBeVisible();
  const rows = page.getByRole('row').filter({ has: page.getByRole('rowheader') });
  await expect(rows).toHaveCount(2);
  await expect(rows.nth(0)).toContainText('Current');
  await expect(rows.nth(1)).toContainText('Came with Ohmward');
  await expectNoViolation(page, 'the revisions of a tree');

  await rows
    .nth(1)
    .getByRole('button', { name: /again$/ })
    .click();
  const again = page.getByRole('dialog', { name: 'Publish this revision again' });
  await again.getByRole('textbox', { name: 'Note' }).fill('Back to the kit as it came');
  await again.getByRole('button', { name: 'Publish again' }).click();
  await expect(page.getByRole('heading', { name: `Revisions of ${PANEL}`, level: 1 })).toBeVisible();
  await expect(rows).toHaveCount(3);
  await expect(rows.nth(0)).toContainText('Back to the kit as it came');
  await expect(rows.nth(0)).toContainText('Current');
  const checksum = (row: number) =>
    rows
      .nth(row)
      .getByTitle(/^[0-9a-f]{64}$/)
      .textContent();
  expect(await checksum(0)).toBe(await checksum(2));

  await rows
    .nth(2)
    .getByRole('radio', { name: /^Compare from/ })
    .check();
  await page.getByRole('button', { name: 'Compare the two chosen' }).click();
  await expect(page).toHaveURL(/#\/trees\/compare\/[0-9a-f-]{36}\/[0-9a-f-]{36}$/);
  await shop.stop();
});

test('a new tree is begun by keyboard as a draft, and its errors keep it from being published', async ({
  page,
}) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await tabTo(page, 'link', 'Trees');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('row', { name: PANEL })).toBeVisible();
  await page.keyboard.press('n');
  await expect(page.getByRole('dialog', { name: 'New tree' })).toBeVisible();
  await expectNoViolation(page, 'naming a new tree');
  await page.keyboard.type('Sandpiper SP-2');
  await page.keyboard.press('Tab');
  await page.keyboard.type('Sandpiper SP-2');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Sandpiper SP-2', level: 1 })).toBeVisible();
  await page.getByRole('button', { name: 'Publish…' }).click();
  const dialog = page.getByRole('dialog', { name: 'Publish “Sandpiper SP-2”' });
  await expect(dialog.getByRole('alert')).toContainText('1 error stops it from being published.');
  await expect(dialog.getByRole('button', { name: 'Publish', exact: true })).toBeHidden();
  await expectNoViolation(page, 'errors that stop publishing');
  await page.keyboard.press('Escape');
  await showTrees(page);
  await expect(page.getByRole('row', { name: 'Sandpiper SP-2' })).toContainText('Not published yet');
  await shop.stop();
});
