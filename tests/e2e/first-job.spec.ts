import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test, type Page } from '@playwright/test';
import { carryOut } from '../../main/command/carry-out.ts';
import { flows, readAndCheck, UNLISTED } from '../../trees/document/index.ts';
import {
  act,
  likely,
  NO_POWER_LED,
  openJob,
  record,
  sayWhoWorks,
  tabTo,
  walkTo,
  type Answers,
} from './bench.ts';
import { newDatabase, openShop } from './shop.ts';

const file = new URL('../../trees/library/kw1-panel.tree.json', import.meta.url);

/** A unit whose fuse F1 has blown, until its remedy is done. */
const FUSE_BLOWN: Answers = {
  'Cells and springs': '1',
  'Cells, at rest': '5.9',
  'Supply to ground': 'OL',
  'Fuse F1': 'OL',
};
const FUSE_NEW: Answers = {
  'Fuse F1': '0.2',
  'Supply to ground': '4k7',
  '5 V rail to ground': '1k2',
  'Current at first power': '150m',
  'Power LED': '1',
};

/** P(f|s) after `jobs` confirmed jobs, n of them with this finding: (S p + n) / (S + jobs), unlisted scaling the others. */
function expectedPrior(finding: string, n: number, jobs: number): number {
  const { tree } = readAndCheck(readFileSync(file));
  if (tree === null) throw new Error('the library’s tree is broken');
  const flow = flows(tree).arriving.get('no-power-led')?.get(finding) ?? 0;
  const { strength, unlisted } = tree.defaults;
  const prior = finding === UNLISTED ? unlisted : (1 - unlisted) * flow;
  return (strength * prior + n) / (strength + jobs);
}

function percent(probability: number): string {
  return `${Math.round(100 * probability)} %`;
}

/** The text of a row whose parts may stand with or without space between them. */
function squeezed(text: string): RegExp {
  return new RegExp(`^\\s*${text.split(' ').join('\\s*')}\\s*$`);
}

async function repairFuse(page: Page): Promise<void> {
  await walkTo(page, 'Start the remedy', FUSE_BLOWN);
  await expect(act(page)).toHaveText('Fuse F1 open');
  await record(page, () => page.keyboard.press('Enter'));
  await walkTo(page, 'Remedy done', {});
  await record(page, () => page.keyboard.press('Enter'));
  await walkTo(page, 'Close as fixed', FUSE_NEW);
  await page.keyboard.press('Enter');
  await expect(act(page)).toHaveText(/Fixed/);
}

test('a unit is walked by keyboard alone from an empty database to finding, remedy, proof and close, and the next one’s likelihoods follow', async ({
  page,
}) => {
  const shop = await openShop(newDatabase());
  await page.goto(shop.address);
  await sayWhoWorks(page, 'Mara');
  await openJob(page, NO_POWER_LED);
  await expect(likely(page, 'Cells flat')).toHaveText(
    squeezed(`Cells flat ${percent(expectedPrior('flat-cells', 0, 0))} no jobs`),
  );
  await repairFuse(page);

  await tabTo(page, 'link', 'All jobs');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Jobs', level: 1 })).toBeVisible();
  await openJob(page, { ...NO_POWER_LED, serial: 'KW1-0043', reference: 'L-119' });
  await expect(likely(page, 'Fuse F1 open')).toHaveText(
    squeezed(`Fuse F1 open ${percent(expectedPrior('fuse-open', 1, 1))} 1 job`),
  );
  await expect(likely(page, 'Cells flat')).toHaveText(
    squeezed(`Cells flat ${percent(expectedPrior('flat-cells', 0, 1))} no jobs`),
  );
  const { json } = await carryOut([
    'belief',
    fileURLToPath(file),
    '--symptom',
    'no-power-led',
    '--db',
    shop.file,
    '--json',
  ]);
  for (const { id, probability } of (json as { findings: { id: string; probability: number }[] }).findings) {
    expect(probability, id).toBeCloseTo(expectedPrior(id, id === 'fuse-open' ? 1 : 0, 1), 9);
  }
  await shop.stop();
});
