import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createRouterClient } from '@orpc/server';
import type { Page } from '@playwright/test';
import { openServices } from '../../main/services/index.ts';
import { openShop } from '../e2e/shop.ts';
import { launchBrowser } from '../support/browser.ts';
import { largeTree } from '../support/large-tree.ts';
import type { Measure } from './measure.ts';

const STROKES = 40;
const AT_MOST = 100;
/** What has changed on the screen when an edit's checks, or its cost, are there. */
const CHECKS = '[aria-label=Checks] [role=status]';
const COST = '[aria-label=Cost] td.now .figures';

/** What is edited; what follows is watched where it changes. */
interface Edited {
  readonly checks: Typed;
  readonly cost: Typed;
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
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-bench-'));
  const file = join(folder, 'shop.sqlite');
  const { large, shipped } = await draftsIn(file);
  const shop = await openShop(file);
  const chrome = await launchBrowser();
  try {
    const page = await chrome.newPage({ viewport: { width: 1366, height: 768 } });
    await page.goto(shop.address);
    await open(page, shipped, '');
    await find(page, 'Cells and springs');
    const small = await typedInTest(page);
    await open(page, large, '/tests/test-3');
    const big = await typedInTest(page);
    const weight = await typedInWeight(page, large);
    return [
      ...measures('a keystroke in a title to its checks', big.checks, small.checks),
      ...measures('a keystroke in minutes to its cost', big.cost, small.cost),
      ...measures('a keystroke in a weight to its cost', weight),
    ];
  } finally {
    await chrome.close();
    await shop.stop();
    rmSync(folder, { recursive: true, force: true });
  }
}

function measures(what: string, large: Typed, shipped?: Typed): Measure[] {
  const median = ranked(large.times, 0.5);
  const small = shipped === undefined ? null : ranked(shipped.times, 0.5);
  const ratio =
    small === null
      ? []
      : [
          {
            name: `${what} on the screen, median / in a tree that we ship`,
            figure: median / small,
            unit: 'times',
            against: `the same in a tree that we ship (${small.toFixed(0)} ms)`,
          },
        ];
  return [
    {
      name: `${what} on the screen, median`,
      figure: median,
      unit: 'ms',
      limit: { atMost: AT_MOST },
    },
    {
      name: `${what} on the screen, 95th in 100`,
      figure: ranked(large.times, 0.95),
      unit: 'ms',
    },
    {
      name: `processor time of the window for it, all that follows included, mean`,
      figure: large.cpu,
      unit: 'ms',
    },
    ...ratio,
  ];
}

async function draftsIn(file: string): Promise<{ readonly large: string; readonly shipped: string }> {
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
    large: large.draft.draftId,
    shipped: shipped.draft.draftId,
  };
}

/** Types in a test's title and in its minutes, each keystroke once all that the one before has brought is there. */
async function typedInTest(page: Page): Promise<Edited> {
  await page.locator(COST).first().waitFor();
  await into(page, 'Minutes');
  const cost = await typed(page, COST, ['Digit9', 'Digit3']);
  await into(page, 'Title');
  return { cost, checks: await typed(page, CHECKS, ['Backspace', 'KeyT']) };
}

/** Types in the weight of a branch of the large tree near its start, which leads to a test that takes long. */
async function typedInWeight(page: Page, draftId: string): Promise<Typed> {
  await open(page, draftId, '/tests/test-7');
  await into(page, 'Minutes');
  await page.keyboard.type('99');
  await open(page, draftId, '/symptoms/symptom/steps/step-1-0');
  await into(page, 'Weight', 1);
  return typed(page, COST, ['Digit9', 'Digit3']);
}

async function open(page: Page, draftId: string, pointer: string): Promise<void> {
  const hash = `#/trees/draft/${draftId}?at=${encodeURIComponent(pointer)}`;
  await page.evaluate((to) => (location.hash = to), hash);
}

async function find(page: Page, test: string): Promise<void> {
  await page.getByRole('button', { name: 'Find', exact: true }).click();
  await page.getByRole('searchbox', { name: 'Some of its name' }).fill(test);
  await page
    .getByRole('button', { name: new RegExp(`^${test}\\s+test$`) })
    .first()
    .click();
}

async function into(page: Page, field: string, at = 0): Promise<void> {
  await page.getByRole('textbox', { name: field, exact: true }).nth(at).click();
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
    (window as unknown as Told).painted = new Promise((done, failed) => {
      setTimeout(
        () => failed(new Error(`Nothing has changed at ${selector}: it reads ${before ?? ''}`)),
        10_000,
      );
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
