import { expect, test, type Page } from '@playwright/test';
import { expectNoViolation } from './axe.ts';
import { act, openJob, record, sayWhoWorks, tabTo, trail, walkTo } from './bench.ts';
import { paneTo } from './by-keyboard.ts';
import {
  lookAtFind,
  lookAtOutlineDialogs,
  lookAtProposal,
  lookAtPublish,
  lookAtTable,
  takeOutAndStay,
} from './editor-looks.ts';
import { newDatabase, openShop } from './shop.ts';
import {
  beginTree,
  fillBlanks,
  mistakeAndBack,
  publish,
  publishTooSoon,
  showWhere,
  writeBench,
  writeMeasured,
  writePath,
  WRITTEN,
} from './turnstone-by-keyboard.ts';
import { expectSound, TURNSTONE } from './turnstone.ts';

const { title, family, symptom, path, end, measured, powered } = TURNSTONE;
test.describe.configure({ mode: 'serial' });

/** The records of both tests: the second one edits the tree that the first one has made. */
const database = newDatabase();

test('a tree is made from nothing by keyboard alone, published, and walked at the bench', async ({
  page,
}) => {
  test.setTimeout(240_000);
  const shop = await openShop(database);
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await beginTree(page);
  await writePath(page);
  await mistakeAndBack(page);
  await writeBench(page);
  await writeMeasured(page);
  await showWhere(page);
  await publishTooSoon(page);
  await fillBlanks(page);
  await expectSound(page);
  await publish(page);
  await walk(page);
  await shop.stop();
});

test('workspace, table and dialogs with that tree are accessible in both themes, and a dialog gives the focus back', async ({
  page,
}) => {
  test.setTimeout(240_000);
  const shop = await openShop(database);
  await page.goto(shop.address);
  await tabTo(page, 'link', 'Trees');
  await page.keyboard.press('Enter');
  await tabTo(page, 'button', `Edit ${title}`);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: title, level: 1 })).toBeVisible();
  await paneTo(page, 'outline');
  await expectNoViolation(page, 'the workspace');
  await lookAtOutlineDialogs(page);
  await lookAtFind(page);
  await takeOutAndStay(page);
  await paneTo(page, 'outline');
  await lookAtPublish(page);
  await lookAtTable(page);
  await lookAtProposal(page);
  await shop.stop();
});

/** The tree at the bench: asked for out of order, the powered test waits for the supply to be measured, then shows the fault. */
async function walk(page: Page): Promise<void> {
  await tabTo(page, 'link', 'Bench');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Jobs', level: 1 })).toBeVisible();
  await openJob(page, { serial: 'TS1-0007', reference: 'L-240', tree: family, board: null, symptom });
  await record(page, () => page.keyboard.press('Enter'));
  await expect(act(page)).toHaveText(path[0].test);
  await record(page, async () => {
    await page.keyboard.press('t');
    await expect(page.getByRole('dialog').getByRole('searchbox')).toBeFocused();
    await page.keyboard.type(powered);
    await page.keyboard.press('Enter');
  });
  await expect(act(page)).toHaveText(measured);
  await expect(page.getByText(`Why first: ${WRITTEN}`)).toBeVisible();
  await expect(page.getByText('J1 plus').first()).toBeVisible();
  await walkTo(page, 'Start the remedy', { [path[0].test]: '1', [measured]: '4k7', [powered]: '2' });
  await expect(act(page)).toHaveText(end);
  await expect(trail(page).filter({ hasText: measured })).toContainText('4.7');
}
