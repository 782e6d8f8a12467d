import { expect, type Locator, type Page } from '@playwright/test';

/** An invented unit that ships with no tree, as a senior technician would write its tree down: one symptom, eight tests, six findings. */
export const TURNSTONE = {
  title: 'Turnstone TS-1, charging dock',
  family: 'Turnstone TS-1',
  symptom: 'Dock does not charge',
  axis: { title: 'Power', start: 'Off, supply unplugged', other: 'On, current limit set' },
  /** Each test with the finding that its fault leads to; the sound result goes on to the next test. */
  path: [
    { test: 'Dock by eye', finding: 'Contact spring bent' },
    { test: 'Supply to ground', finding: 'Clamp diode shorted' },
    { test: 'Supply at the jack', finding: 'Jack joint broken' },
    { test: 'Fuse', finding: 'Fuse open' },
    { test: 'Regulator output', finding: 'Regulator dead' },
    { test: 'Charge LED', finding: 'LED lead off' },
    { test: 'Charge current', finding: 'Regulator dead' },
    { test: 'Contacts pressed', finding: 'Contact spring bent' },
  ],
  /** Where the last test’s sound result leads. */
  end: 'Jack joint broken',
  measured: 'Supply to ground',
  powered: 'Supply at the jack',
} as const;

export const SOUND = 'As it should be';
export const FAULTY = 'Not so';

/** A drawing to probe on, as a maker of documents would hand it over, with a script that must not come through. */
export const DOCK_DRAWING = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 120">
  <script>alert(1)</script>
  <rect x="10" y="10" width="180" height="100" fill="#eeeeee" stroke="#333333"/>
  <circle cx="60" cy="60" r="8" fill="#b5651d" onclick="alert(2)"/>
  <circle cx="140" cy="60" r="8" fill="#b5651d"/>
</svg>`;

export const drawing = (page: Page): Locator =>
  page.getByRole('application', { name: /^Drawing of the path of/ });

/** A way out of a step in the drawing. */
export const way = (page: Page, name: RegExp): Locator => drawing(page).getByRole('button', { name });

export const form = (page: Page): Locator => page.locator('[data-form]');

/** The checks that miss a text, each a way to its place. */
export const blanks = (page: Page): Locator =>
  page.getByRole('region', { name: 'Checks' }).getByRole('button', { name: /^Go to .*: This text is empty/ });

/** Everything is recorded, and nothing keeps the tree from being published. */
export async function expectSound(page: Page): Promise<void> {
  await expect(page.getByText('Draft, all kept')).toBeVisible();
  await expect(page.getByRole('region', { name: 'Checks' }).getByRole('status')).not.toContainText('error');
}
