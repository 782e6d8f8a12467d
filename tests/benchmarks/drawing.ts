import type { Page } from '@playwright/test';
import { launchBrowser } from '../support/browser.ts';
import { openDrawingPage } from '../support/drawing-page.ts';
import type { Measure } from './measure.ts';

const FRAMES = 180;
const ROUNDS = 3;

type FramesOf = (move: string, count: number) => Promise<readonly number[]>;

/**
 * The drawing of a path of 2,000 steps with 6,000 branches, in a browser: until it can be worked with, and its frames
 * while it is panned and zoomed near by and as a whole, against frames of the same page at rest.
 */
export default async function benchmark(): Promise<Measure[]> {
  const chrome = await launchBrowser();
  const served = await openDrawingPage();
  try {
    const page = await chrome.newPage({ viewport: { width: 1366, height: 768 } });
    const opened = await opening(page, `${served.address}?large/symptom`);
    const near = await moving(page);
    await page.getByRole('button', { name: 'Show all' }).click();
    await page.waitForSelector('[data-simply="true"]');
    const whole = await moving(page);
    return [
      {
        name: 'until a path of 2,000 steps can be worked with',
        figure: opened.wall,
        unit: 'ms',
        limit: { atMost: 2000 },
      },
      { name: 'processor time of the window in that, loading included', figure: opened.cpu, unit: 'ms' },
      ...measures('near by', near),
      ...measures('as a whole', whole),
    ];
  } finally {
    served.stop();
    await chrome.close();
  }
}

interface Moved {
  readonly rest: Spread;
  readonly pan: Spread;
  readonly zoom: Spread;
}
interface Spread {
  readonly median: number;
  readonly late: number;
  /** Processor time that the window's thread took for a frame, all its work counted. */
  readonly cpu: number;
}

function measures(where: string, { rest, pan, zoom }: Moved): Measure[] {
  const against = 'a frame at rest in the same run';
  return (
    [
      ['panning', pan],
      ['zooming', zoom],
    ] as const
  ).flatMap(([what, { median, late, cpu }]): Measure[] => [
    {
      name: `a frame ${what} ${where}, median`,
      figure: median / rest.median,
      unit: '×',
      limit: { atMost: 1.2 },
      against,
    },
    { name: `a frame ${what} ${where}, 95th in 100`, figure: late / rest.late, unit: '×', against },
    {
      name: `processor time of a frame ${what} ${where}, mean`,
      figure: cpu,
      unit: 'ms',
      limit: { atMost: 1000 / 60 },
    },
  ]);
}

/** The quickest of some openings, as others use the machine too, and the processor time of the window's thread in it. */
async function opening(
  page: Page,
  address: string,
): Promise<{ readonly wall: number; readonly cpu: number }> {
  const times: { readonly wall: number; readonly cpu: number }[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    await page.goto('about:blank');
    const cpu = await processorMs(page, async () => {
      await page.goto(address);
      await page.waitForSelector('[data-opened]');
    });
    times.push({ wall: Number(await page.getAttribute('body', 'data-opened')), cpu });
  }
  return times.reduce((best, time) => (time.wall < best.wall ? time : best));
}

async function moving(page: Page): Promise<Moved> {
  return {
    rest: await framesOf(page, 'rest'),
    pan: await framesOf(page, 'pan'),
    zoom: await framesOf(page, 'zoom'),
  };
}

async function framesOf(page: Page, move: string): Promise<Spread> {
  let frames: readonly number[] = [];
  const cpu = await processorMs(page, async () => {
    frames = await page.evaluate(
      ([what, count]) => (window as unknown as { framesOf: FramesOf }).framesOf(what, count),
      [move, FRAMES] as const,
    );
  });
  return { median: ranked(frames, 0.5), late: ranked(frames, 0.95), cpu: cpu / FRAMES };
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
  // A page in another process counts from nothing.
  return after >= before ? after - before : after;
}

function ranked(times: readonly number[], share: number): number {
  return times.toSorted((a, b) => a - b)[Math.floor(times.length * share)] ?? 0;
}
