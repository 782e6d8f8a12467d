import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { openRecords } from '../../main/records/index.ts';
import { compileFaultModel, defaultAccuracy, NO_HISTORY } from '../../trees/belief/index.ts';
import { firstSituation, type Answer } from '../../trees/chart/index.ts';
import { planExact, planFast, type PlanQuestion } from '../../trees/plan/index.ts';
import { questionOf } from '../published/question-of.ts';
import published from '../published/values/test-sequence.json' with { type: 'json' };
import { smallDocument, treeOf } from '../support/trees.ts';
import { scratch, spawned, written } from './command-line.ts';
import { expectShape, planned, type Shown } from './planned.ts';
import { panel, panelTree, shopWithRate } from './shop-with-rate.ts';

const folder = scratch();
const small = written(folder, 'small.tree.json', smallDocument());
const tree = treeOf(smallDocument());

const isolate = ['--symptom', 'dark-screen', '--goal', 'isolate'];
const fix = ['--symptom', 'dark-screen', '--goal', 'fix'];

/** The question that the command should put to the planner for these answers. */
function question(goal: PlanQuestion['goal'], answers: readonly Answer[] = []): PlanQuestion {
  const { job, bench } = firstSituation(tree, 'dark-screen');
  const model = compileFaultModel(tree, NO_HISTORY);
  return { model, goal, job: { ...job, answers }, bench, rate: null };
}

function act({ actions }: Shown, id: string) {
  const found = actions.find((one) => one.id === id);
  expect(found, id).toBeDefined();
  return found ?? { kind: '', id, minutes: Number.NaN, expectedTotal: Number.NaN };
}

describe('plan', () => {
  const { probability, fails, expected, tolerance } = published;
  const sequence = questionOf({
    goal: 'isolate',
    weights: Object.fromEntries(probability.map((share, row) => [`s${String(row)}`, share])),
    tests: Object.fromEntries(
      expected.byFirstTest.map((_, at) => [`t${String(at + 1)}`, { results: ['pass', 'fail'], minutes: 1 }]),
    ),
    expects: Object.fromEntries(
      fails.map((row, state) => [
        `s${String(state)}`,
        Object.fromEntries(row.map((one, at) => [`t${String(at + 1)}`, one === 1 ? 'fail' : 'pass'])),
      ]),
    ),
  });

  it(`finds what is published, from a file: ${published.source} (${published.basis})`, async () => {
    const file = written(folder, 'sequence.tree.json', sequence.model.tree);
    const shown = await planned(file, '--symptom', sequence.job.symptom, '--goal', 'isolate');
    expectShape(shown);
    expect(Math.abs(shown.expectedTotal - expected.minutes)).toBeLessThanOrEqual(tolerance);
    expect(shown).toMatchObject({ method: 'exact', gap: 0 });
    for (const [at, total] of expected.byFirstTest.entries()) {
      const first = act(shown, `t${String(at + 1)}`);
      expect(Math.abs(first.expectedTotal - total)).toBeLessThanOrEqual(tolerance);
    }
  });

  it('names tests, remedies and passing on for the goal fix, and tests alone for isolate', async () => {
    const all = await planned(small, ...fix, '--method', 'fast');
    expectShape(all);
    expect(all.method).toBe('fast');
    expect(new Set(all.actions.map(({ kind }) => kind))).toEqual(new Set(['test', 'remedy', 'pass-on']));
    expect(act(all, 'pass-on')).toEqual({ kind: 'pass-on', id: 'pass-on', minutes: 60, expectedTotal: 60 });
    const tests = await planned(small, ...isolate);
    expectShape(tests);
    expect(tests.actions.map(({ kind }) => kind)).toEqual(['test']);
  });

  it('weighs a reading near a limit with the instrument’s accuracy, between the two results', async () => {
    const near = await planned(small, ...isolate, '--given', 'supply-resistance=50.1');
    const clear = await planned(small, ...isolate, '--given', 'supply-resistance=clear');
    const short = await planned(small, ...isolate, '--given', 'supply-resistance=short');
    const reading = { value: 50.1, typed: '50.1', accuracy: defaultAccuracy('ohms') };
    const given = { test: 'supply-resistance', result: 'clear', reading, era: 0 };
    const { expectedTotal, actions } = planExact(question('isolate', [given]));
    expect(near.expectedTotal).toBeCloseTo(expectedTotal, 9);
    expect(near.actions).toEqual(actions);
    expect(near.expectedTotal).not.toBeCloseTo(clear.expectedTotal, 3);
    expect(near.expectedTotal).not.toBeCloseTo(short.expectedTotal, 3);
  });

  it('takes a ratio to an earlier reading against that reading, in either order', async () => {
    const rail = ['--given', 'rail-in=5.02'];
    const far = ['--given', 'rail-far=4.82'];
    const shown = await planned(small, ...isolate, ...far, ...rail);
    const accuracy = defaultAccuracy('dc-volts');
    const { expectedTotal } = planExact(
      question('isolate', [
        { test: 'rail-in', result: 'good', reading: { value: 5.02, typed: '5.02', accuracy }, era: 0 },
        {
          test: 'rail-far',
          result: 'good',
          reading: { value: 4.82, typed: '4.82', accuracy },
          reference: 5.02,
          era: 0,
        },
      ]),
    );
    expect(shown.expectedTotal).toBeCloseTo(expectedTotal, 9);
    expect((await planned(small, ...isolate, ...rail, ...far)).expectedTotal).toBeCloseTo(expectedTotal, 9);
  });

  it('starts from how the bench is said to stand: a shell that is open already saves its two minutes', async () => {
    const closed = await planned(small, ...isolate);
    const open = await planned(small, ...isolate, '--at', 'shell=open');
    expect(closed.actions[0]).toMatchObject({ id: 'supply-resistance', minutes: 2.5 });
    expect(open.actions[0]).toMatchObject({ id: 'supply-resistance', minutes: 0.5 });
    expect(open.expectedTotal).toBeCloseTo(closed.expectedTotal - 2, 9);
    expect(await planned(small, ...isolate, '--at', 'shell=closed', '--at', 'power=off')).toEqual(closed);
  });

  it('counts parts at price x 60 / rate minutes, and not at all without a rate', async () => {
    const without = await planned(small, ...fix, '--method', 'fast');
    const rated = await planned(small, ...fix, '--method', 'fast', '--rate', '22.5');
    const remedies = without.actions.filter(({ kind }) => kind === 'remedy');
    expect(remedies).toHaveLength(8);
    for (const { id, minutes } of remedies) {
      expect(act(rated, id).minutes).toBeCloseTo(minutes + (1.5 * 60) / 22.5, 9);
    }
  });

  it('says that nothing is left to find out where one finding is settled', async () => {
    const settled = ['--given', 'supply-resistance=0.8', '--given', 'border=none', '--given', 'rail-in=low'];
    const document = smallDocument();
    const low = written(folder, 'settled.tree.json', { ...document, defaults: { settled: 0.3 } });
    const argv = ['--symptom', 'dark-screen', '--goal', 'isolate', ...settled];
    expect(await planned(low, ...argv)).toEqual({ actions: [], expectedTotal: 0, method: 'exact', gap: 0 });
    expect(spawned('plan', low, ...argv).stdout).toContain('No test is left');
  });

  it('plans for a tree whose ids are words of the language', async () => {
    const document = smallDocument();
    const { tone, ...tests } = document.tests;
    const then = { heard: { go: 'finding:volume-down' }, silent: { go: 'finding:speaker-open' } };
    const odd = written(folder, 'odd.tree.json', {
      ...document,
      tests: { ...tests, constructor: tone },
      findings: Object.fromEntries(
        Object.entries(document.findings).map(([id, one]) => [
          id,
          { ...one, prove: ['border'], expects: {} },
        ]),
      ),
      symptoms: {
        ...document.symptoms,
        'no-sound': { title: 'No sound', first: 'listen', steps: { listen: { test: 'constructor', then } } },
      },
    });
    const argv = ['--symptom', 'no-sound', '--goal', 'isolate', '--given', 'supply-resistance=clear'];
    const shown = await planned(odd, ...argv);
    expect(shown.actions).toContainEqual(expect.objectContaining({ kind: 'test', id: 'constructor' }));
    const silent = await planned(odd, ...argv, '--given', 'constructor=silent');
    expect(silent.actions.map(({ id }) => id)).not.toContain('constructor');
  });

  it('prints a table for people, and in its last line the total, the method and how good it is', () => {
    const { stdout, status } = spawned('plan', small, ...isolate);
    const lines = stdout.trimEnd().split('\n');
    expect(lines[1]).toMatch(/^ +2\.5 +\d+\.\d {2}test supply-resistance: Supply to ground$/);
    expect(lines.at(-1)).toMatch(/^\d+\.\d minutes expected in all, exact: the best there is$/);
    expect(status).toBe(0);
  });
});

describe('plan on a shop’s records', () => {
  const shop = join(folder, 'shop.sqlite');
  const argv = ['--symptom', 'no-power-led', '--goal', 'fix', '--method', 'fast'];
  beforeAll(() => shopWithRate(shop, 30), 120_000);

  it('plans with the shop’s history and hourly rate', async () => {
    const shown = await planned(panel, ...argv, '--db', shop);
    const opened = openRecords({ file: shop });
    if (!opened.ok) throw new Error(opened.message);
    const history = opened.records.historyOf('kw1-panel');
    await opened.records.close();
    const { job, bench } = firstSituation(panelTree, 'no-power-led');
    const asked = (rate: number, known = history) =>
      planFast({ model: compileFaultModel(panelTree, known), goal: 'fix', job, bench, rate });
    const { actions, expectedTotal } = asked(30);
    expect(shown).toMatchObject({ actions, expectedTotal });
    expect(shown.expectedTotal).not.toBeCloseTo(asked(30, NO_HISTORY).expectedTotal, 3);
    const other = await planned(panel, ...argv, '--db', shop, '--rate', '120');
    expect(other.expectedTotal).toBe(asked(120).expectedTotal);
    expect(other.expectedTotal).not.toBeCloseTo(shown.expectedTotal, 3);
  });
});
