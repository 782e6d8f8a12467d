import { expect, test, type Page } from '@playwright/test';
import { openBuiltPage, type BuiltPage } from '../support/built-page.ts';
import { expectNoViolation } from './axe.ts';

let built: BuiltPage;

test.beforeAll(async () => {
  built = await openBuiltPage('plots-page');
});

test.afterAll(() => built.stop());

const PLOTS = 8;

async function show(page: Page, figures: string, width = 1366): Promise<readonly string[]> {
  const told: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'log') told.push(message.text());
  });
  page.on('pageerror', (error) => told.push(error.message));
  await page.setViewportSize({ width, height: 768 });
  await page.goto(`${built.address}?${figures}`);
  await expect(page.locator('figure')).toHaveCount(PLOTS);
  await page.evaluate(() => document.fonts.ready);
  return told;
}

for (const figures of ['realistic', 'one', 'large', 'empty'])
  test(`plots of ${figures} figures have nothing that axe-core objects to`, async ({ page }) => {
    await show(page, figures);
    await expectNoViolation(page, figures);
  });

test('no text of a plot runs into another one, or out of the drawing, in a narrow column or a wide one', async ({
  page,
}) => {
  for (const figures of ['realistic', 'two', 'large'])
    for (const width of [384, 700, 1366, 1920]) {
      await show(page, figures, width);
      expect(await page.evaluate(textsAstray), `${figures}, ${String(width)} pixels`).toEqual([]);
    }
});

test('a plot without figures says so in words, draws nothing and offers nothing to save', async ({
  page,
}) => {
  await show(page, 'empty');
  await expect(page.locator('svg[data-plot]')).toHaveCount(0);
  await expect(page.getByRole('button')).toHaveCount(0);
  await expect(
    page.getByText('No technician has a job here whose comeback window has passed.'),
  ).toBeVisible();
});

test('a chart of 60 months is one tab stop; arrow keys go on, and Enter, Space and a click give the month', async ({
  page,
}) => {
  const told = await show(page, 'large');
  const chart = page.getByRole('group', { name: /^First-time fix by month/ });
  await expect(chart.locator('[tabindex="0"]')).toHaveCount(1);
  await page.keyboard.press('Tab');
  const first = chart.getByRole('button', { name: /^Mar 2021: / });
  await expect(first).toBeFocused();
  await expect(first.locator('.ring')).toBeVisible();
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowRight');
  const second = chart.getByRole('button', { name: /^Apr 2021: / });
  await expect(second).toBeFocused();
  await page.keyboard.press(' ');
  await expect(page.locator('figure').first().locator('.reading')).toContainText('Apr 2021: ');
  await page.keyboard.press('End');
  await page.keyboard.press('Tab');
  await expect(page.getByRole('button', { name: 'Save as SVG: First-time fix by month' })).toBeFocused();
  await first.click();
  expect(told).toEqual(['month "2021-03"', 'month "2021-04"', 'month "2021-03"']);
});

test('of many rows a few are shown, and all on request', async ({ page }) => {
  await show(page, 'large');
  const branches = page.locator('figure', { hasText: 'Branches' });
  await expect(branches.locator('[data-point]')).toHaveCount(12);
  await branches.getByRole('button', { name: 'All 300 rows' }).click();
  await expect(branches.locator('[data-point]')).toHaveCount(300);
  await branches.getByRole('button', { name: 'Only 12 rows' }).click();
  await expect(branches.locator('[data-point]')).toHaveCount(12);
});

test('a saved plot is XML of its own: no variable, class or page attribute, dark ink on white in either theme', async ({
  page,
}) => {
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    await show(page, 'realistic');
    const saved = await page.evaluate(() => (window as unknown as Saving).savedPlots());
    expect(saved).toHaveLength(PLOTS);
    for (const text of saved) {
      expect(text).not.toMatch(/var\(|class=|style=|data-|aria-|role=|tabindex|NaN|undefined/);
      expect(await page.evaluate(partsOf, text)).toEqual({
        error: false,
        root: 'http://www.w3.org/2000/svg svg',
        titled: true,
        white: true,
        fonts: true,
        dark: true,
      });
    }
    await expect(page.locator('svg[data-plot]')).toHaveCount(PLOTS);
    await expect(page.locator('html')).not.toHaveAttribute('data-theme');
  }
});

test('a saved plot drawn by itself shows dark ink on white', async ({ page, context }) => {
  await page.emulateMedia({ colorScheme: 'dark' });
  await show(page, 'realistic');
  const saved = await page.evaluate(() => (window as unknown as Saving).savedPlots());
  const blank = await context.newPage();
  for (const text of saved) {
    const { dark, white } = await blank.evaluate(inkOf, text);
    expect(dark).toBeGreaterThan(0.002);
    expect(white).toBeGreaterThan(0.7);
  }
});

test('the button saves the plot under its name', async ({ page }) => {
  await show(page, 'realistic');
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as SVG: Likelihoods shown' }).click();
  expect((await download).suggestedFilename()).toBe('likelihoods.svg');
});

interface Saving {
  readonly savedPlots: () => readonly string[];
}

/** What an SVG's text holds, read as XML. Runs in the page. */
function partsOf(text: string): object {
  const { documentElement: root } = new DOMParser().parseFromString(text, 'image/svg+xml');
  const title = root.querySelector('title')?.textContent ?? '';
  const description = root.querySelector('desc')?.textContent ?? '';
  const texts = [...root.querySelectorAll('text')];
  return {
    error: root.querySelector('parsererror') !== null,
    root: `${root.namespaceURI ?? ''} ${root.localName}`,
    titled:
      title !== '' && description !== '' && texts.some((line) => title.startsWith(line.textContent ?? ' ')),
    white: root.querySelector('rect')?.getAttribute('fill') === '#fff',
    dark: texts.every((line) =>
      (line.getAttribute('fill')?.match(/\d+/g) ?? ['0']).every((channel) => Number(channel) < 110),
    ),
    fonts:
      texts.length > 5 &&
      texts.every((line) => line.getAttribute('font-family')?.includes('Atkinson') === true),
  };
}

/** The shares of dark and of white among the pixels of an SVG drawn as an image. Runs in the page. */
async function inkOf(text: string): Promise<{ readonly dark: number; readonly white: number }> {
  const image = new Image();
  image.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(text)}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [image.width, image.height];
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('no canvas');
  context.drawImage(image, 0, 0);
  const { data } = context.getImageData(0, 0, canvas.width, canvas.height);
  let [dark, white] = [0, 0];
  for (let at = 0; at < data.length; at += 4) {
    const light = ((data[at] ?? 0) + (data[at + 1] ?? 0) + (data[at + 2] ?? 0)) / 3;
    if ((data[at + 3] ?? 0) < 250) continue;
    if (light < 100) dark += 1;
    if (light > 250) white += 1;
  }
  const pixels = data.length / 4;
  return { dark: dark / pixels, white: white / pixels };
}

/** Texts of a plot that overlap another one of it or stand out of its sides. Runs in the page. */
function textsAstray(): readonly string[] {
  return [...document.querySelectorAll('svg[data-plot]')].flatMap((svg) => {
    const frame = svg.getBoundingClientRect();
    const column = svg.parentElement?.getBoundingClientRect() ?? frame;
    // A line's box is taller than its letters.
    const boxes = [...svg.querySelectorAll('text')].map((text) => {
      const { left, right, top, bottom } = text.getBoundingClientRect();
      return { words: text.textContent ?? '', left, right, top: top + 3, bottom: bottom - 3 };
    });
    const over = boxes.flatMap((a, index) =>
      boxes
        .slice(index + 1)
        .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom)
        .map((b) => `"${a.words}" over "${b.words}"`),
    );
    const out = boxes
      .filter(
        ({ left, right, top, bottom }) =>
          left < column.left - 1 ||
          right > column.right + 1 ||
          top < frame.top - 1 ||
          bottom > frame.bottom + 1,
      )
      .map(({ words }) => `"${words}" out of the drawing`);
    return [...over, ...out];
  });
}
