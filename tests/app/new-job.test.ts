import { beforeEach, describe, expect, it } from 'vitest';
import { NewJobForm } from '../../app/bench/start/new-job.svelte.ts';
import { Session } from '../../app/shell/session.svelte.ts';
import { JOB_ID, SMALL_SUMMARY, standIn, TECHNICIAN } from './stand-in-client.ts';

const OTHER = {
  ...SMALL_SUMMARY,
  revisionId: '01900000-0000-7000-8000-000000000009',
  title: 'Small unit, refitted',
  boards: ['A1', 'B2'],
};

async function formWith(...trees: (typeof SMALL_SUMMARY)[]): Promise<{ form: NewJobForm; session: Session }> {
  const { client } = standIn(trees);
  const session = new Session(() => Promise.resolve(client));
  await session.open();
  session.workAs(TECHNICIAN.id);
  return { form: new NewJobForm(session), session };
}

describe('a new job', () => {
  let form: NewJobForm;
  let session: Session;
  beforeEach(async () => ({ form, session } = await formWith(SMALL_SUMMARY)));

  it('has made every choice of one', () => {
    expect(form.family).toBe('Small unit');
    expect(form.tree?.revisionId).toBe(SMALL_SUMMARY.revisionId);
    expect(form.board).toBe('A1');
  });

  it('says what is missing, one thing at a time, until it can start', () => {
    session.workAs('');
    expect(form.missing).toBe('Say who is at work.');
    session.workAs(TECHNICIAN.id);
    expect(form.missing).toBe('Enter the serial.');
    form.serial = '  ';
    expect(form.missing).toBe('Enter the serial.');
    form.serial = 'S-1';
    expect(form.missing).toBe('Choose the symptom.');
    form.chooseSymptom('dark-screen');
    expect(form.missing).toBe('');
  });

  it('starts nothing while something is missing', async () => {
    expect(await form.start()).toBeNull();
  });

  it('gives the job’s id when it is recorded', async () => {
    form.serial = 'S-1';
    form.chooseSymptom('dark-screen');
    expect(await form.start()).toBe(JOB_ID);
  });
});

describe('a new job of a family with two trees', () => {
  it('asks for the tree, and asks for the board again when another tree is chosen', async () => {
    const { form } = await formWith(SMALL_SUMMARY, OTHER);
    form.serial = 'S-1';
    expect(form.missing).toBe('Choose the tree.');
    form.chooseTree(OTHER.revisionId);
    expect(form.missing).toBe('Choose the board.');
    form.chooseBoard('B2');
    expect(form.missing).toBe('Choose the symptom.');
    form.chooseTree(SMALL_SUMMARY.revisionId);
    expect(form.board).toBe('A1');
  });
});
