import type { Browser, BrowserContext } from '@playwright/test';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import type { ReviewPage } from '../../main/contract/index.ts';
import { openServices } from '../../main/services/index.ts';
import { launchBrowser } from '../support/browser.ts';
import { leaveStage } from '../support/electron-stand-in.ts';
import { closedSpeakerJob, openShop, startSmallJob } from '../support/temp-shop.ts';
import { asPage, builtDesktop, freshFile, startDesktop } from './desktop-support.ts';
import { ask, hostOf } from './loopback-support.ts';

vi.mock('electron', () => import('../support/electron-stand-in.ts'));

const BEHIND = { filter: {}, slice: { kind: 'first-time-fixed' as const } };
/** The first review of a start works out what every tree expects. */
const FIRST_ANSWER = { timeout: 60_000, interval: 50 };

let browser: Browser;
let context: BrowserContext;

beforeAll(async () => {
  await builtDesktop();
  browser = await launchBrowser();
  context = await browser.newContext();
}, 120_000);
afterAll(() => browser.close());

/** A database of four closed jobs: a unit that was fixed and came back, another that was fixed, and one declined. */
async function closedJobs(): Promise<string> {
  const file = freshFile();
  const shop = await openShop({ file });
  for (const serial of ['S-0001', 'S-0001', 'S-0002']) await closedSpeakerJob(shop, serial);
  const declined = await startSmallJob(shop, 'dark-screen', 'S-0003');
  await declined.append({ kind: 'close', outcome: 'declined' });
  await shop.services.close();
  return file;
}

/** What the loopback host, on the same database, answers at a moment. */
async function throughLoopback(file: string, now: number) {
  const services = await openServices({ file, host: 'loopback', clock: () => now });
  const { port, headers } = await hostOf(services);
  const answered = async (path: string, input: object): Promise<unknown> => {
    const body = JSON.stringify({ json: input });
    const reply = await ask({ port, path: `/rpc/${path}`, method: 'POST', headers, body });
    return (JSON.parse(reply.text) as { readonly json: unknown }).json;
  };
  return { figures: await answered('review/figures', {}), jobs: await answered('review/jobs', BEHIND) };
}

describe('the review through the desktop host, run against the stand-in', () => {
  it('is the one that the loopback host gives of the same database at the same moment, figures and jobs', async () => {
    const file = await closedJobs();
    const { stage } = await startDesktop(context, file);
    const window = await stage.firstWindow.promise;
    await window.loaded.promise;
    const client = asPage(window);
    const figures = await client.review.figures({});
    const jobs = await client.review.jobs(BEHIND);
    await leaveStage();
    expect({ figures, jobs }).toEqual(await throughLoopback(file, figures.review.asOf));
    expect(figures.review).toMatchObject({ jobs: 4, firstTimeFix: { closed: 4, fixed: 2 } });
    expect(jobs.jobs.map(({ serial }) => serial)).toEqual(['S-0002', 'S-0001']);
    expect(stage.errors).toEqual([]);
  }, 120_000);

  it('reaches the page through the preload’s port, which shows it', async () => {
    const file = await closedJobs();
    const { stage } = await startDesktop(context, file);
    const { page, told } = await (await stage.firstWindow.promise).loaded.promise;
    await page.getByRole('link', { name: 'Review' }).click();
    const parts = page.getByRole('navigation', { name: 'Parts of the review' });
    await vi.waitFor(async () => expect(await parts.innerText()).toContain('of 4 jobs'), FIRST_ANSWER);
    const [figures] = told.map(figuresTold).filter((one) => one !== null);
    await leaveStage();
    expect(figures).toEqual((await throughLoopback(file, figures?.review.asOf ?? 0)).figures);
    expect(stage.errors).toEqual([]);
  }, 120_000);
});

/** The figures in a text that the main process sent to the page; null where it is of something else. */
function figuresTold(text: string): ReviewPage | null {
  const { p } = JSON.parse(text) as { readonly p?: { readonly b?: { readonly json?: object } } };
  const json = p?.b?.json;
  return typeof json === 'object' && 'review' in json ? (json as ReviewPage) : null;
}
