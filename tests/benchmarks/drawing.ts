import { chromium, type Page } from '@playwright/test';
import { findOrInstallBrowser } from '../support/browser.ts';
import { openDrawingPage } from '../support/drawing-page.ts';
import type { Measure } from './measure.ts';

const FRAMES = 180;
const ROUNDS = 3;

type FramesOf = (
  move: string,
  count: number,
) => Promise<{ readonly frames: readonly number[]; readonly work: readonly number[] }>;

/**
 * The drawing of a path of 2,000 steps with 6,000 branches, in a browser: until it can be worked with, and its frames
 * while it is panned and zoomed near by and as a whole, against frames of the same page at rest.
 */
export default async function benchmark(): Promise<Measure[]> {
  const browser = await findOrInstallBrowser();
  if (browser.kind === 'none') throw new Error(browser.help);
  const chrome = await chromium.launch({
    ...(browser.executablePath === undefined ? {} : { executablePath: browser.executablePath }),
    args: process.getuid?.() === 0 ? ['--no-sandbox'] : [],
  });
  const served = await openDrawingPage();
  try {
    const page = await chrome.newPage({ viewport: { width: 1366, height: 768 } });
    const opened = await openingMs(page, `${served.address}?large/symptom`);
    const near = await moving(page);
    await page.getByRole('button', { name: 'Show all' }).click();
    await page.waitForSelector('[data-simply="true"]');
    const whole = await moving(page);
    return [
      {
        name: 'until a path of 2,000 steps can be worked with',
        figure: opened,
        unit: 'ms',
        limit: { atMost: 2000 },
      },
      ...measures('near by', near),
      ...measures('as a whole', whole),
    ];
  } finally {
    served.stop();
    await chrome.close();
  }
}

interface Moved {
  readonly rest: number;
  readonly pan: Spread;
  readonly zoom: Spread;
}
interface Spread {
  readonly median: number;
  readonly late: number;
  readonly work: number;
}

function measures(where: string, { rest, pan, zoom }: Moved): Measure[] {
  return [
    { name: `a frame at rest, ${where}`, figure: rest, unit: 'ms' },
    ...(
      [
        ['panning', pan],
        ['zooming', zoom],
      ] as const
    ).flatMap(([what, { median, late, work }]): Measure[] => [
      {
        name: `a frame ${what} ${where}, median`,
        figure: median / rest,
        unit: '×',
        limit: { atMost: 1.2 },
        against: 'a frame at rest in the same run',
      },
      { name: `a frame ${what} ${where}, 95th in 100`, figure: late, unit: 'ms' },
      { name: `the window’s own work in it, 95th in 100`, figure: work, unit: 'ms' },
    ]),
  ];
}

/** The quickest of some openings, as others use the machine too. */
async function openingMs(page: Page, address: string): Promise<number> {
  const times: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    await page.goto(address);
    await page.waitForSelector('[data-opened]');
    times.push(Number(await page.getAttribute('body', 'data-opened')));
  }
  return Math.min(...times);
}

async function moving(page: Page): Promise<Moved> {
  const rest = await framesOf(page, 'rest');
  return { rest: rest.median, pan: await framesOf(page, 'pan'), zoom: await framesOf(page, 'zoom') };
}

async function framesOf(page: Page, move: string): Promise<Spread> {
  const { frames, work } = await page.evaluate(
    ([what, count]) => (window as unknown as { framesOf: FramesOf }).framesOf(what, count),
    [move, FRAMES] as const,
  );
  return { median: ranked(frames, 0.5), late: ranked(frames, 0.95), work: ranked(work, 0.95) };
}

function ranked(times: readonly number[], share: number): number {
  return times.toSorted((a, b) => a - b)[Math.floor(times.length * share)] ?? 0;
}
