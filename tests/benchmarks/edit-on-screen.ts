import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createRouterClient } from '@orpc/server';
import { chromium, type Page } from '@playwright/test';
import { openServices } from '../../main/services/index.ts';
import { openShop } from '../e2e/shop.ts';
import { findOrInstallBrowser } from '../support/browser.ts';
import { largeTree } from '../support/large-tree.ts';
import type { Measure } from './measure.ts';

const STROKES = 40;
const AT_MOST = 100;
/** What has changed on the screen when an edit's checks, or its cost, are there. */
const CHECKS = '[aria-label=Checks] [role=status]';
const COST = '[aria-label=Cost] td.now .figures';

/** A draft to be measured, and a test of its path. */
interface Draft {
  readonly draftId: string;
  readonly test: string;
}

/** Milliseconds from each keystroke until what it changes is painted, and the window's own processor time for one. */
interface Typed {
  readonly times: readonly number[];
  readonly cpu: number;
}

/**
 * From a keystroke in the editor to its checks and its cost on the screen, in a browser with the app as it is built: in a tree of
 * 2,000 steps and 6,000 branches, against the same keystrokes in a tree that we ship.
 */
export default async function benchmark(): Promise<Measure[]> {
  const browser = await findOrInstallBrowser();
  if (browser.kind === 'none') throw new Error(browser.help);
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-bench-'));
  const file = join(folder, 'shop.sqlite');
  const { large, shipped } = await draftsIn(file);
  const shop = await openShop(file);
  const chrome = await chromium.launch({
    ...(browser.executablePath === undefined ? {} : { executablePath: browser.executablePath }),
    args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
  });
  try {
    const page = await chrome.newPage({ viewport: { width: 1366, height: 768 } });
    await page.goto(shop.address);
    const small = await typedIn(page, shipped);
    const big = await typedIn(page, large);
    return [...measures('checks', big.checks, small.checks), ...measures('cost', big.cost, small.cost)];
  } finally {
    await chrome.close();
    await shop.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

function measures(what: string, large: Typed, shipped: Typed): Measure[] {
  const median = ranked(large.times, 0.5);
  return [
    {
      name: `a keystroke to its ${what} on the screen, median`,
      figure: median,
      unit: 'ms',
      limit: { atMost: AT_MOST },
    },
    {
      name: `a keystroke to its ${what} on the screen, 95th in 100`,
      figure: ranked(large.times, 0.95),
      unit: 'ms',
    },
    {
      name: `processor time of the window for it, all that follows included, mean`,
      figure: large.cpu,
      unit: 'ms',
    },
    {
      name: `a keystroke to its ${what} on the screen, median / in a tree that we ship`,
      figure: median / ranked(shipped.times, 0.5),
      unit: 'times',
      against: `the same in a tree that we ship (${ranked(shipped.times, 0.5).toFixed(0)} ms)`,
    },
  ];
}

async function draftsIn(file: string): Promise<{ readonly large: Draft; readonly shipped: Draft }> {
  const services = await openServices({ file, host: 'loopback' });
  const client = createRouterClient(services.router);
  const { id: technicianId } = await client.shop.addTechnician({ name: 'Mara' });
  const text = JSON.stringify(largeTree());
  const large = await client.drafts.start({ technicianId, from: { kind: 'new', text } });
  const panel = (await client.trees.list()).find(({ title }) => title === 'Kittiwake KW-1, refitted panel');
  if (panel === undefined) throw new Error('edit-on-screen: the shop has not the tree that was meant');
  const { revisionId } = panel;
  const shipped = await client.drafts.start({ technicianId, from: { kind: 'revision', revisionId } });
  await services.close();
  return {
    large: { draftId: large.draft.draftId, test: 'Test' },
    shipped: { draftId: shipped.draft.draftId, test: 'Cells and springs' },
  };
}

/** Types in a test's title and its minutes, each keystroke once all that the one before has brought is there. */
async function typedIn(
  page: Page,
  { draftId, test }: Draft,
): Promise<{ readonly checks: Typed; readonly cost: Typed }> {
  await page.evaluate((id) => (location.hash = `#/trees/draft/${id}`), draftId);
  await page.getByRole('button', { name: 'Find', exact: true }).click();
  await page.getByRole('searchbox', { name: 'Some of its name' }).fill(test);
  await page
    .getByRole('button', { name: new RegExp(`^${test}\\s+test$`) })
    .first()
    .click();
  await page.locator(COST).first().waitFor();
  await page.getByRole('textbox', { name: 'Minutes' }).click();
  const cost = await typed(page, COST, ['Digit9', 'Digit3']);
  await page.getByRole('textbox', { name: 'Title', exact: true }).click();
  return { cost, checks: await typed(page, CHECKS, ['Backspace', 'KeyT']) };
}

/** Presses the keys in turn, each over all that the field holds. */
async function typed(page: Page, watched: string, keys: readonly [string, string]): Promise<Typed> {
  const times: number[] = [];
  const cpu: number[] = [];
  // The first ones warm up.
  for (let stroke = -4; stroke < STROKES; stroke += 1) {
    await page.keyboard.press('Control+a');
    let ms = 0;
    const taken = await processorMs(page, async () => {
      const painted = await untilPainted(page, watched);
      await page.keyboard.press(keys[Math.abs(stroke) % 2] ?? keys[0]);
      ms = await painted();
      await atRest(page);
    });
    if (stroke < 0) continue;
    times.push(ms);
    cpu.push(taken);
  }
  return { times, cpu: cpu.reduce((sum, one) => sum + one, 0) / cpu.length };
}

type Told = { painted: Promise<number> };

/** Begins to watch for other words at a place; gives the milliseconds from the next key pressed until they are painted. */
async function untilPainted(page: Page, watched: string): Promise<() => Promise<number>> {
  await page.evaluate((selector) => {
    const words = (): string | undefined => document.querySelector(selector)?.textContent;
    const before = words();
    let from = 0;
    document.addEventListener('keydown', () => (from = performance.now()), { once: true, capture: true });
    (window as unknown as Told).painted = new Promise((done) => {
      const watch = new MutationObserver(() => {
        if (words() === before) return;
        watch.disconnect();
        // What was changed before a frame is on the screen once the frame is over.
        requestAnimationFrame(() => setTimeout(() => done(performance.now() - from)));
      });
      watch.observe(document.body, { subtree: true, childList: true, characterData: true });
    });
  }, watched);
  return () => page.evaluate(() => (window as unknown as Told).painted);
}

/** Waits until the draft is kept and nothing is reckoned any more: for a quarter of a second nothing has changed. */
async function atRest(page: Page): Promise<void> {
  await page.evaluate(
    () =>
      new Promise<void>((done) => {
        const wait = (): ReturnType<typeof setTimeout> =>
          setTimeout(() => {
            watch.disconnect();
            done();
          }, 250);
        let timer = wait();
        const watch = new MutationObserver(() => {
          clearTimeout(timer);
          timer = wait();
        });
        watch.observe(document.body, { subtree: true, childList: true, characterData: true });
      }),
  );
}

/** Processor time of the window's main thread while something is done: other work on the machine does not add to it. */
async function processorMs(page: Page, act: () => Promise<void>): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable', { timeDomain: 'threadTicks' });
  const taken = async (): Promise<number> => {
    const { metrics } = await session.send('Performance.getMetrics');
    return (metrics.find(({ name }) => name === 'TaskDuration')?.value ?? 0) * 1000;
  };
  const before = await taken();
  await act();
  const after = await taken();
  await session.detach();
  return after - before;
}

function ranked(times: readonly number[], share: number): number {
  return times.toSorted((a, b) => a - b)[Math.floor(times.length * share)] ?? 0;
}
