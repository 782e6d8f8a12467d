import { expect, type Page } from '@playwright/test';
import { openRecords } from '../../main/records/index.ts';
import { readAndCheck } from '../../trees/document/index.ts';
import { dunlinDocument } from '../support/dunlin-tree.ts';
import { act, openJob, sayWhoWorks, type Ticket } from './bench.ts';
import { newDatabase, openShop, type Shop } from './shop.ts';

export const PLAYS_FAINTLY: Ticket = {
  serial: 'DL2-0007',
  reference: 'L-301',
  // The family, which has this one tree.
  tree: 'Dunlin DL-2',
  board: null,
  symptom: 'Plays faintly',
};

export const STOPS: Ticket = { ...PLAYS_FAINTLY, serial: 'DL2-0008', symptom: 'Stops by itself' };

/** A shop that has the Dunlin's tree beside those we ship, with one technician and one job at its first act. */
export async function dunlinBegun(page: Page, ticket: Ticket = PLAYS_FAINTLY): Promise<Shop> {
  const file = newDatabase();
  await addDunlin(file);
  const shop = await openShop(file);
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await openJob(page, ticket);
  await page.keyboard.press('Enter');
  await expect(act(page)).not.toHaveText(ticket.symptom);
  return shop;
}

async function addDunlin(file: string): Promise<void> {
  const bytes = new TextEncoder().encode(JSON.stringify(dunlinDocument()));
  const { tree } = readAndCheck(bytes);
  const opening = openRecords({ file });
  if (tree === null || !opening.ok) throw new Error('the Dunlin’s tree cannot be put into the records');
  opening.records.addRevision({ bytes, tree, source: 'published', note: '', pictures: [] });
  await opening.records.close();
}
