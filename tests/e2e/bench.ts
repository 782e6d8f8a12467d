import { expect, type Page } from '@playwright/test';

/** What to type for a test, by its title: a number key, or a reading as the meter shows it. */
export type Answers = Readonly<Record<string, string>>;

/** Moves the focus with Tab until it is on the control of that name; fails where the keyboard does not get there. */
export async function tabTo(
  page: Page,
  role: 'link' | 'button' | 'textbox' | 'radio' | 'combobox',
  name: string | RegExp,
): Promise<void> {
  const wanted = page.getByRole(role, { name, exact: typeof name === 'string' });
  for (let presses = 0; presses < 80; presses += 1) {
    if (await wanted.evaluateAll((all) => all.includes(document.activeElement as HTMLElement))) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`The keyboard does not come to the ${role} ${String(name)}.`);
}

/** Adds a technician and leaves the bench in front, by keyboard alone. */
export async function sayWhoWorks(page: Page, name: string): Promise<void> {
  await tabTo(page, 'link', 'Add your name first');
  await page.keyboard.press('Enter');
  await tabTo(page, 'textbox', 'Name');
  await page.keyboard.type(name);
  await page.keyboard.press('Enter');
  await expect(
    page.getByRole('cell', { name }).or(page.getByRole('rowheader', { name })).first(),
  ).toBeVisible();
  await tabTo(page, 'link', 'Bench');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Jobs', level: 1 })).toBeVisible();
}

/** Back to the list of jobs, which then takes the keys. */
export async function showJobs(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'All jobs' }).click();
  await expect(page.getByRole('heading', { name: 'Jobs', level: 1 })).toBeVisible();
}

export interface Ticket {
  readonly serial: string;
  readonly reference: string;
  readonly tree: string;
  readonly board: string | null;
  readonly symptom: string;
}

export const NO_POWER_LED: Ticket = {
  serial: 'KW1-0042',
  reference: 'L-118',
  tree: 'Kittiwake KW-1, refitted panel',
  board: 'A2',
  symptom: 'No power LED',
};

/** Opens a new job by keyboard alone, as far as its first screen. */
export async function openJob(page: Page, ticket: Ticket): Promise<void> {
  await page.keyboard.press('n');
  await expect(page.getByRole('heading', { name: 'New job', level: 1 })).toBeVisible();
  await tabTo(page, 'textbox', 'Serial');
  await page.keyboard.type(ticket.serial);
  await tabTo(page, 'textbox', 'Job reference');
  await page.keyboard.type(ticket.reference);
  await choose(page, ticket.tree);
  if (ticket.board !== null) await choose(page, ticket.board);
  await choose(page, ticket.symptom);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('region', { name: `Job ${ticket.serial}` })).toBeVisible();
}

/** Chooses a radio by keyboard: Tab to its group, then the arrows, which the platform gives every radio group. */
async function choose(page: Page, name: string): Promise<void> {
  const radio = page.getByRole('radio', { name, exact: true });
  await expect(radio).toBeVisible();
  const group = await radio.getAttribute('name');
  const others = page.locator(`input[type=radio][name="${group ?? ''}"]`);
  for (let presses = 0; presses < 80; presses += 1) {
    if (await others.evaluateAll((all) => all.includes(document.activeElement as HTMLInputElement))) break;
    await page.keyboard.press('Tab');
  }
  if ((await others.count()) === 1 || !(await radio.isChecked())) await page.keyboard.press('Space');
  for (let presses = 0; presses < 20 && !(await radio.isChecked()); presses += 1)
    await page.keyboard.press('ArrowDown');
  await expect(radio).toBeChecked();
}

/** The title of the act on the screen. */
export function act(page: Page) {
  return page.locator('[data-act-title]');
}

/** The findings that lead, as they stand beside the question. */
export function likely(page: Page, title: string) {
  return page
    .getByRole('group', { name: 'Likely findings' })
    .getByRole('listitem')
    .filter({ hasText: title });
}

/** What was done, as the trail beside the question tells it. */
export function trail(page: Page) {
  return page.getByRole('group', { name: 'What was done' }).getByRole('listitem');
}

/**
 * Walks by keyboard alone: Enter for every act that has one button to take now, the answers for the tests by title, until
 * there is a button of that name. Every step waits for the one before it to be recorded.
 */
export async function walkTo(page: Page, button: string, answers: Answers): Promise<void> {
  for (let steps = 0; steps < 60; steps += 1) {
    if (await page.getByRole('button', { name: button }).isVisible()) return;
    await record(page, async (title) => answerTitled(page, title, answers));
  }
  throw new Error(`The walk did not come to “${button}”.`);
}

/** Does something that is to be recorded, and waits until the screen shows what comes after it. */
export async function record(page: Page, doing: (title: string) => Promise<void>): Promise<void> {
  const title = await titleOf(page);
  const recorded = await trail(page).count();
  await doing(title);
  const moved = async () => (await trail(page).count()) !== recorded || (await titleOf(page)) !== title;
  await expect.poll(moved, { message: `nothing came of the act “${title}”` }).toBe(true);
}

/** The title of the act in plain spaces: the screen keeps numbers and their units on one line. */
async function titleOf(page: Page): Promise<string> {
  return ((await act(page).textContent()) ?? '').replace(/\s+/g, ' ').trim();
}

async function answerTitled(page: Page, title: string, answers: Answers): Promise<void> {
  const answer = answers[title];
  const isMeasured = (await page.getByRole('textbox', { name: /reading/i }).count()) > 0;
  const isChosen = (await page.getByRole('list', { name: 'Answers' }).count()) > 0;
  if (!isMeasured && !isChosen) return page.keyboard.press('Enter');
  if (answer === undefined) throw new Error(`The script has no answer to “${title}”.`);
  if (!isMeasured) return page.keyboard.press(answer);
  await page.keyboard.type(answer);
  await page.keyboard.press('Enter');
}
