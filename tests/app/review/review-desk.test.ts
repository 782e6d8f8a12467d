import { describe, expect, it } from 'vitest';
import { ALL_JOBS } from '../../../trees/review/index.ts';
import { ReviewDesk } from '../../../app/review/review-desk.svelte.ts';
import type { ReviewPage } from '../../../main/contract/index.ts';
import { expected } from '../stand-in-client.ts';
import { reviewSession, type Question } from './stand-in-review.ts';

const [JUNE, JULY] = ['2026-06-01', '2026-07-01'].map((from) => ({ ...ALL_JOBS, from }));
/** Told apart by identity: what is in them is not looked at. */
const pageNumbered = (jobs: number): ReviewPage => ({ review: { jobs } }) as unknown as ReviewPage;

/** Waits until a question has come to the main process. */
async function nth(questions: readonly Question[], index: number): Promise<Question> {
  for (let turn = 0; turn < 20 && questions[index] === undefined; turn += 1) await Promise.resolve();
  const question = questions[index];
  if (question === undefined) throw new Error('not asked');
  return question;
}

describe('the review’s desk', () => {
  it('shows the newest question’s answer, whichever comes first', async () => {
    const { session, questions } = reviewSession();
    const desk = new ReviewDesk(session);
    const first = desk.ask(JUNE ?? ALL_JOBS);
    const june = await nth(questions, 0);
    const second = desk.ask(JULY ?? ALL_JOBS);
    const july = await nth(questions, 1);
    expect(june.signal.aborted).toBe(true);
    july.answer(pageNumbered(7));
    expect(await second).toBe(true);
    june.answer(pageNumbered(6));
    expect(await first).toBe(false);
    expect(desk.shown).toEqual({ filter: JULY, page: pageNumbered(7) });
    expect(desk.busy).toBe(false);
  });

  it('does not take the end of an overtaken question for the end of the newest', async () => {
    const { session, questions } = reviewSession();
    const desk = new ReviewDesk(session);
    const first = desk.ask(JUNE ?? ALL_JOBS);
    const june = await nth(questions, 0);
    void desk.ask(JULY ?? ALL_JOBS);
    await nth(questions, 1);
    june.fail(expected('RECORDS_UNAVAILABLE'));
    expect(await first).toBe(false);
    expect(desk.busy).toBe(true);
    expect(desk.trouble).toBeNull();
  });

  it('keeps the last page while a new one is worked out, and where that fails', async () => {
    const { session, questions } = reviewSession();
    const desk = new ReviewDesk(session);
    const first = desk.ask(ALL_JOBS);
    (await nth(questions, 0)).answer(pageNumbered(1));
    await first;
    const second = desk.ask(JULY ?? ALL_JOBS);
    const question = await nth(questions, 1);
    expect(desk.busy).toBe(true);
    expect(desk.shown?.page).toEqual(pageNumbered(1));
    question.fail(expected('RECORDS_UNAVAILABLE'));
    await second;
    expect(desk.shown).toEqual({ filter: ALL_JOBS, page: pageNumbered(1) });
    expect(desk.trouble).toMatchObject({ code: 'RECORDS_UNAVAILABLE', help: 'Do this.' });
  });
});
