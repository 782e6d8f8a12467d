import { describe, expect, it } from 'vitest';
import { compileChart, type JobEvent } from '../../trees/chart/index.ts';
import {
  isLost,
  isWon,
  lengthOf,
  replayJob,
  shopReplayOf,
  type JobRecord,
} from '../../trees/replay/index.ts';
import { measured } from '../chart/walking.ts';
import { smallDocument, smallTree, treeOf, type TreeDocument } from '../support/trees.ts';
import { closedJob } from './honest-job.ts';

const small = compileChart(smallTree());
const open: JobEvent = { kind: 'change', axis: 'shell', to: 'open' };
const power = (to: 'on' | 'off'): JobEvent => ({ kind: 'change', axis: 'power', to });
const clear = measured('supply-resistance', 'clear', 1200);
const start = (finding: string): JobEvent => ({ kind: 'start-remedy', finding });
const done: JobEvent = { kind: 'remedy-done' };

/** 2 open, 0.5 supply, 0.4 on, 0.8 the rail: 3.7 minutes to a low converter, mended. */
const LOW = closedJob(
  small,
  'dark-screen',
  [
    open,
    clear,
    power('on'),
    measured('rail-in', 'low', 4.6),
    start('converter-low'),
    power('off'),
    done,
    clear,
    power('on'),
    measured('rail-in', 'good', 5),
    { kind: 'answer', test: 'border', result: 'whole' },
  ],
  'fixed',
).record;

/** A ribbon seated in vain, then a rail joint found by looking again. */
const IN_VAIN = closedJob(
  small,
  'dark-screen',
  [
    open,
    clear,
    power('on'),
    measured('rail-in', 'good', 5),
    measured('rail-far', 'good', 4.9),
    { kind: 'answer', test: 'border', result: 'partial' },
    start('ribbon-loose'),
    power('off'),
    done,
    clear,
    power('on'),
    { kind: 'answer', test: 'border', result: 'none' },
    start('panel-dead'),
    power('off'),
    done,
    clear,
    power('on'),
    { kind: 'answer', test: 'border', result: 'whole' },
  ],
  'fixed',
).record;

/** The small document, changed. */
function draft(change: (document: TreeDocument) => void) {
  const document = smallDocument();
  change(document);
  return compileChart(treeOf(document));
}

function part<T>(value: T | undefined): T {
  if (value === undefined) throw new Error('the small document has no such part');
  return value;
}

const railIn = (document: TreeDocument) => part(document.tests['rail-in']);
const steps = (document: TreeDocument) => part(part(document.symptoms['dark-screen']).steps);

describe('a job replayed on a draft', () => {
  it('takes the minutes of its tests and changeovers up to the finding, and no remedy’s', () => {
    const replayed = replayJob(small, small, LOW);
    expect(replayed?.draft.end).toEqual({ kind: 'finding', finding: 'converter-low' });
    expect(replayed?.draft.minutes).toBeCloseTo(3.7, 9);
    expect(replayed).toMatchObject({ verdict: 'same', minutesMore: 0, confirmed: 'converter-low' });
  });

  it('has its raw readings sorted into the draft’s bands', () => {
    const wider = draft((document) => {
      part(railIn(document).results['low']).band = { to: 4.5 };
      part(railIn(document).results['good']).band = { from: 4.5, to: 5.25 };
    });
    const replayed = replayJob(wider, small, LOW);
    expect(replayed?.draft.steps.at(-1)).toMatchObject({ test: 'rail-in', result: 'good', value: 4.6 });
    expect(replayed).toMatchObject({
      verdict: 'stops',
      draft: { end: { kind: 'stops', test: 'rail-far', because: 'never-made' } },
      minutesMore: null,
    });
  });

  it('comes to another finding where the draft’s branch leads there, which is then lost', () => {
    const other = draft((document) => {
      part(part(steps(document)['supply']).then['low']).go = 'finding:joint-open';
    });
    const replayed = part(replayJob(other, small, LOW) ?? undefined);
    expect(replayed.draft.end).toEqual({ kind: 'finding', finding: 'joint-open' });
    expect([replayed.verdict, isLost(replayed), isWon(replayed)]).toEqual(['elsewhere', true, false]);
  });

  it('is won where the draft comes to the confirmed finding and the tree before did not', () => {
    const wrong = draft((document) => {
      part(part(steps(document)['supply']).then['low']).go = 'finding:joint-open';
    });
    const replayed = part(replayJob(small, wrong, LOW) ?? undefined);
    expect([replayed.verdict, isLost(replayed), isWon(replayed)]).toEqual(['elsewhere', false, true]);
  });

  it('takes the changeovers that the draft asks for, and so other minutes to the same finding', () => {
    const shut = draft((document) => {
      railIn(document).needs = { power: 'on', shell: 'closed' };
    });
    const replayed = part(replayJob(shut, small, LOW) ?? undefined);
    expect(replayed.minutesMore).toBeCloseTo(1.5, 9);
    expect(lengthOf(replayed)).toBe('longer');
  });

  it('stops where the draft has dropped the result that was chosen, and says which', () => {
    const fewer = draft((document) => {
      const { whole, none } = part(document.tests['border']).results;
      part(document.tests['border']).results = { whole: part(whole), none: part(none) };
      delete part(steps(document)['look']).then['partial'];
    });
    expect(replayJob(fewer, small, IN_VAIN)?.draft.end).toEqual({
      kind: 'stops',
      test: 'border',
      because: 'result-dropped',
      result: 'partial',
    });
  });

  it('stops at a test that is measured now and was chosen then, or is measured in another unit', () => {
    const volts = draft((document) => {
      const tone = part(document.tests['border']);
      tone.reading = { unit: 'V' };
      tone.results = {
        whole: { title: 'Whole', band: { from: 1 } },
        partial: { title: 'Partial', band: { from: 0.5, to: 1 } },
        none: { title: 'None', band: { to: 0.5 } },
      };
    });
    expect(replayJob(volts, small, IN_VAIN)?.draft.end).toMatchObject({
      test: 'border',
      because: 'not-measured',
    });
    const amps = draft((document) => {
      part(railIn(document).reading).unit = 'A';
    });
    expect(replayJob(amps, small, LOW)?.draft.end).toMatchObject({ test: 'rail-in', because: 'other-unit' });
  });

  it('does again a remedy that was done in vain, and goes on with what was answered after it', () => {
    const replayed = part(replayJob(small, small, IN_VAIN) ?? undefined);
    expect(replayed.draft.end).toEqual({ kind: 'finding', finding: 'panel-dead' });
    expect(replayed.draft.steps).toContainEqual({ kind: 'remedy', finding: 'ribbon-loose', minutes: 3 });
  });

  it('spares the minutes of a remedy in vain where the draft comes to the confirmed finding at once', () => {
    const wiser = draft((document) => {
      part(part(steps(document)['look']).then['partial']).go = 'finding:panel-dead';
    });
    const replayed = part(replayJob(wiser, small, IN_VAIN) ?? undefined);
    // Power off 0.2, the ribbon 3, supply 0.5, power on 0.4, the picture 0.2.
    expect(replayed.minutesMore).toBeCloseTo(-4.3, 9);
    expect(lengthOf(replayed)).toBe('shorter');
  });

  it('has answers from after a remedy only for what is asked after it', () => {
    const asked = draft((document) => {
      part(part(document.symptoms['no-sound']).steps)['listen'] = {
        test: 'border',
        then: {
          whole: { go: 'finding:volume-down' },
          partial: { go: 'finding:speaker-open' },
          none: { go: 'finding:speaker-open' },
        },
      };
    });
    const quiet = closedJob(
      small,
      'no-sound',
      [
        open,
        clear,
        power('on'),
        { kind: 'answer', test: 'tone', result: 'silent' },
        start('speaker-open'),
        power('off'),
        done,
        clear,
        power('on'),
        { kind: 'answer', test: 'border', result: 'none' },
        { kind: 'answer', test: 'tone', result: 'heard' },
      ],
      'fixed',
    ).record;
    expect(replayJob(asked, small, quiet)?.draft.end).toMatchObject({
      test: 'border',
      because: 'never-made',
    });
  });

  it('takes for a proof only what was answered after the remedy', () => {
    const provesMore = draft((document) => {
      part(document.findings['ribbon-loose']).prove = ['rail-far', 'border'];
    });
    const replayed = replayJob(provesMore, small, IN_VAIN);
    expect(replayed?.draft.end).toEqual({ kind: 'stops', test: 'rail-far', because: 'never-made' });
  });

  it('goes by the corrected answer, and by none that was taken back', () => {
    const events = [
      open,
      measured('supply-resistance', 'short', 3),
      { kind: 'take-back' },
      measured('supply-resistance', 'clear', 900),
      power('on'),
      measured('rail-in', 'high', 5.6),
      { ...measured('rail-in', 'low', 4.1), kind: 'correct' },
    ] as const;
    const { record } = closedJob(small, 'dark-screen', events as readonly JobEvent[], 'declined');
    expect(replayJob(small, small, record)?.draft).toMatchObject({
      end: { finding: 'converter-low' },
      steps: [{ kind: 'change' }, { value: 900 }, { kind: 'change' }, { value: 4.1, result: 'low' }],
    });
  });

  it('skips again what was skipped, going on as it did, and takes no minutes for it', () => {
    const skip: JobEvent = { kind: 'skip', test: 'rail-in', reason: 'No room for the probe.', as: 'high' };
    const { record } = closedJob(small, 'dark-screen', [open, clear, power('on'), skip], 'declined');
    const replayed = replayJob(small, small, record);
    expect(replayed?.draft.end).toEqual({ kind: 'finding', finding: 'converter-high' });
    expect(replayed?.draft.steps.at(-1)).toEqual({ kind: 'skip', test: 'rail-in', as: 'high', minutes: 0 });
  });

  it('is said to be gone where the draft has dropped its symptom, and says where its confirmed finding is dropped', () => {
    const without = draft((document) => {
      delete document.symptoms['dark-screen'];
      delete part(document.findings['ribbon-loose']).otherwise;
    });
    expect(replayJob(without, small, LOW)).toMatchObject({ verdict: 'gone', confirmedGone: false });
    const fewer = draft((document) => {
      delete document.findings['converter-low'];
      part(part(steps(document)['supply']).then['low']).go = 'finding:converter-high';
    });
    expect(replayJob(fewer, small, LOW)).toMatchObject({ verdict: 'elsewhere', confirmedGone: true });
  });

  it('is compared with its own tree where the published one asks for what it did not record', () => {
    const asksMore = draft((document) => {
      part(document.symptoms['dark-screen']).first = 'far';
    });
    expect(replayJob(small, asksMore, LOW)).toMatchObject({ comparedWith: 'walked-on', verdict: 'same' });
    expect(replayJob(small, small, LOW)).toMatchObject({ comparedWith: 'published' });
  });

  it('is null where the events do not fit their own tree', () => {
    expect(replayJob(small, small, { ...LOW, events: [power('on')] })).toBeNull();
    expect(replayJob(small, small, { ...LOW, symptom: 'constructor' })).toBeNull();
  });
});

describe('a shop replayed on a draft', () => {
  const broken = { ...LOW, events: [power('on')] };
  const wrong = draft((document) => {
    part(part(steps(document)['supply']).then['low']).go = 'finding:joint-open';
    part(document.tests['rail-far']).minutes = 2.8;
  });

  const onWrong = (jobs: readonly JobRecord[]) =>
    shopReplayOf(
      jobs.flatMap((job) => replayJob(wrong, small, job) ?? []),
      jobs.length,
    );

  it('counts every job once, and lists the lost ones first', () => {
    const shop = onWrong([IN_VAIN, LOW, broken]);
    expect(shop.counts).toEqual({
      jobs: 3,
      same: 1,
      elsewhere: 1,
      stops: 0,
      gone: 0,
      unreadable: 1,
      longer: 1,
      shorter: 0,
      lost: 1,
      won: 0,
      confirmedGone: 0,
    });
    expect(shop.jobs.map(({ verdict }) => verdict)).toEqual(['elsewhere', 'same']);
  });

  it('gives the mean of the minutes more, with mean ± t s / sqrt(n) from two jobs', () => {
    // Only the job in vain comes to the far end of the rail.
    const longer = draft((document) => {
      part(document.tests['rail-far']).minutes += 2;
    });
    const { minutesMore } = shopReplayOf(
      [IN_VAIN, LOW].flatMap((job) => replayJob(longer, small, job) ?? []),
      2,
    );
    // Two minutes more and none more: s = sqrt 2, t(1) = 12.7062 (NIST/SEMATECH e-Handbook 1.3.6.7.2, to 5 digits).
    expect(minutesMore).toMatchObject({ jobs: 2, mean: expect.closeTo(1, 9) });
    expect(minutesMore?.interval?.to).toBeCloseTo(1 + 12.7062, 3);
    expect(minutesMore?.interval?.from).toBeCloseTo(1 - 12.7062, 3);
  });

  it('takes no minutes of a job that the draft brings to another finding for time won or lost', () => {
    const { counts, minutesMore, jobs } = onWrong([IN_VAIN, LOW]);
    expect(counts).toMatchObject({ same: 1, lost: 1 });
    const [lost, same] = jobs;
    expect(lost?.minutesMore).not.toBeNull();
    expect(minutesMore).toEqual({ jobs: 1, mean: same?.minutesMore, interval: null });
  });

  it('gives no interval from one job, and no mean from none', () => {
    expect(onWrong([IN_VAIN]).minutesMore).toMatchObject({ jobs: 1, interval: null });
    expect(onWrong([LOW]).minutesMore).toBeNull();
    expect(onWrong([]).minutesMore).toBeNull();
  });

  it('does not hang on the order of the jobs but in the order of equals', () => {
    const one = onWrong([IN_VAIN, LOW, broken]);
    const other = onWrong([broken, LOW, IN_VAIN]);
    expect(other).toEqual(one);
  });
});
