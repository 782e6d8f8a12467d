import { describe, expect, test } from 'vitest';
import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import type { JobState } from '../../trees/chart/index.ts';
import { referencePlan, type ReferenceQuestion } from '../support/reference-plan.ts';
import { treeOf, type TreeDocument } from '../support/trees.ts';

type Tests = Record<string, Partial<TreeDocument['tests'][string]>>;
type Findings = Record<
  string,
  {
    readonly weight: number;
    readonly minutes?: number;
    readonly prove?: string[];
    readonly expects?: Record<string, string>;
  }
>;

interface Asked {
  readonly tests?: Tests;
  readonly findings: Findings;
  readonly defaults?: TreeDocument['defaults'];
  readonly bench?: TreeDocument['bench'];
  readonly interlocks?: TreeDocument['interlocks'];
  readonly job?: Partial<JobState>;
  readonly standing?: Record<string, string>;
}

/** Certain results, remedies that always mend, settled at 1, unless said otherwise. Two results, `ok` and `bad`, of a minute each. */
function question(goal: ReferenceQuestion['goal'], asked: Asked): ReferenceQuestion {
  const { tests = {}, findings, defaults = {}, bench = {}, interlocks = [], job, standing } = asked;
  const results = { ok: { title: 'ok' }, bad: { title: 'bad' } };
  const tree = treeOf({
    format: 'ohmward-tree/1',
    id: 'by-hand',
    title: 'By hand',
    unit: { family: 'None' },
    defaults: { reliability: 1, unlisted: 0, fixRate: 1, settled: 1, escalate: 100, ...defaults },
    bench,
    interlocks,
    tests: mapped(tests, (id, known) => ({
      title: id,
      ask: id,
      instrument: 'eye',
      minutes: 1,
      results,
      ...known,
    })),
    findings: mapped(findings, (id, { minutes = 1, prove = [], expects = {} }) => ({
      title: id,
      because: id,
      remedy: { steps: [id], minutes },
      prove,
      expects,
    })),
    symptoms: { shown: { title: 'shown', weights: mapped(findings, (_, { weight }) => weight) } },
  });
  const starts = Object.fromEntries(Object.entries(tree.bench).map(([axis, { start }]) => [axis, start]));
  return {
    model: compileFaultModel(tree, NO_HISTORY),
    goal,
    job: { symptom: 'shown', answers: [], skips: [], remedies: [], era: 0, ...job },
    bench: { ...starts, ...standing },
    rate: null,
  };
}

function mapped<A, B>(record: Record<string, A>, to: (id: string, value: A) => B): Record<string, B> {
  return Object.fromEntries(Object.entries(record).map(([id, value]) => [id, to(id, value)]));
}

function expectActs(asked: ReferenceQuestion, expected: Record<string, number>): void {
  const { total, acts } = referencePlan(asked);
  expect([...acts.keys()].toSorted()).toEqual(Object.keys(expected).toSorted());
  for (const [act, minutes] of Object.entries(expected)) expect(acts.get(act)).toBeCloseTo(minutes, 12);
  const least = Object.values(expected).reduce((a, b) => Math.min(a, b), acts.size === 0 ? 0 : Infinity);
  expect(total).toBeCloseTo(least, 12);
}

const POWER: NonNullable<TreeDocument['bench']> = {
  power: {
    title: 'Power',
    start: 'off',
    states: { off: { title: 'off' }, on: { title: 'on' } },
    changes: [
      { from: 'off', to: 'on', minutes: 1, say: 'on' },
      { from: 'on', to: 'off', minutes: 0.25, say: 'off' },
    ],
  },
};
const LOCKED = {
  bench: POWER,
  interlocks: [{ change: { power: 'on' }, until: { clear: ['ok'] }, because: 'short' }],
  tests: { clear: { minutes: 0.5, needs: { power: 'off' } }, lit: { minutes: 2, needs: { power: 'on' } } },
};

describe('isolate, worked by hand to 1e-12', () => {
  test('one test that tells two findings apart costs its own minutes', () => {
    const findings = {
      a: { weight: 1, expects: { tell: 'ok' } },
      b: { weight: 1, expects: { tell: 'bad' } },
    };
    expectActs(question('isolate', { tests: { tell: { minutes: 3 } }, findings }), { 'test:tell': 3 });
  });

  test('where no test moves the belief, and where a finding is settled, all is done', () => {
    const same = { a: { weight: 1, expects: { tell: 'ok' } }, b: { weight: 1, expects: { tell: 'ok' } } };
    expectActs(question('isolate', { tests: { tell: {} }, findings: same }), {});
    const likely = { a: { weight: 9, expects: { tell: 'ok' } }, b: { weight: 1, expects: { tell: 'bad' } } };
    const settled = { tests: { tell: {} }, findings: likely, defaults: { settled: 0.9 } };
    expectActs(question('isolate', settled), {});
  });

  test('a changeover shared by two tests is paid for once', () => {
    const shell = {
      title: 'Shell',
      start: 'closed',
      states: { closed: { title: 'closed' }, open: { title: 'open' } },
      changes: [
        { from: 'closed', to: 'open', minutes: 2, say: 'open' },
        { from: 'open', to: 'closed', minutes: 1.5, say: 'close' },
      ],
    };
    const inside = { needs: { shell: 'open' } };
    const asked = question('isolate', {
      bench: { shell },
      tests: { 'is-a': inside, 'is-b': inside, outside: { minutes: 2.5 } },
      findings: {
        a: { weight: 1, expects: { 'is-a': 'bad', 'is-b': 'ok', outside: 'bad' } },
        b: { weight: 1, expects: { 'is-a': 'ok', 'is-b': 'bad', outside: 'ok' } },
        c: { weight: 1, expects: { 'is-a': 'ok', 'is-b': 'ok', outside: 'ok' } },
      },
    });
    expectActs(asked, {
      'test:is-a': 2 + 1 + 2 / 3,
      'test:is-b': 2 + 1 + 2 / 3,
      'test:outside': 2.5 + (2 / 3) * (2 + 1),
    });
  });

  test('a test behind an interlock is not possible before the opener, and then costs its changeover', () => {
    const findings = {
      a: { weight: 1, expects: { clear: 'bad', lit: 'ok' } },
      b: { weight: 1, expects: { clear: 'ok', lit: 'ok' } },
      c: { weight: 1, expects: { clear: 'ok', lit: 'bad' } },
    };
    expectActs(question('isolate', { ...LOCKED, findings }), { 'test:clear': 0.5 + (2 / 3) * (1 + 2) });
  });

  test('after a remedy the opener is made again, and tells nothing new', () => {
    const findings = {
      b: { weight: 1, expects: { clear: 'ok', lit: 'ok' } },
      c: { weight: 1, expects: { clear: 'ok', lit: 'bad' } },
      tried: { weight: 1, expects: { clear: 'ok', lit: 'bad' } },
    };
    const remedy = { finding: 'tried', state: 'not-mended' as const, evidence: [], prove: [], proofs: [] };
    const answers = [{ test: 'clear', result: 'ok', era: 0 }];
    const job = { answers, remedies: [remedy], era: 1 };
    expectActs(question('isolate', { ...LOCKED, findings, job }), { 'test:clear': 0.5 + 1 + 2 });
  });
});

describe('fix, worked by hand to 1e-12', () => {
  test('a test dearer than what it saves comes after the remedy that is likeliest for its minutes', () => {
    const findings = {
      a: { weight: 1, minutes: 10, expects: { tell: 'ok' } },
      b: { weight: 1, minutes: 4, expects: { tell: 'bad' } },
    };
    expectActs(question('fix', { tests: { tell: { minutes: 3 } }, findings }), {
      // Where it was bad, the test is the proof too.
      'test:tell': 3 + (10 + 4 + 3) / 2,
      'remedy:a': 10 + 4 / 2,
      'remedy:b': 4 + 10 / 2,
      'pass-on': 100,
    });
  });

  test('two remedies that mend half of the time go in the order of probability over minutes, then it is passed on', () => {
    const findings = { a: { weight: 6, minutes: 6 }, b: { weight: 4, minutes: 2 } };
    expectActs(question('fix', { findings, defaults: { fixRate: 0.5, escalate: 20 } }), {
      'remedy:a': 6 + 0.7 * 2 + 0.5 * 20,
      'remedy:b': 2 + 0.8 * 6 + 0.5 * 20,
      'pass-on': 20,
    });
  });

  test('passing on is best where a remedy costs more', () => {
    const asked = question('fix', { findings: { a: { weight: 1, minutes: 10 } }, defaults: { escalate: 3 } });
    expectActs(asked, { 'remedy:a': 10, 'pass-on': 3 });
  });

  test('a remedy closes the interlock: the bench is made safe, and the proof opens it again', () => {
    const findings = { a: { weight: 1, minutes: 4, prove: ['lit'], expects: { clear: 'ok', lit: 'ok' } } };
    const job = { answers: [{ test: 'clear', result: 'ok', era: 0 }] };
    const shared = { ...LOCKED, findings, job, standing: { power: 'on' } };
    const worked = 4 + 0.25 + 0.5 + 1 + 2;
    expectActs(question('fix', shared), { 'remedy:a': worked, 'test:lit': 2 + worked, 'pass-on': 100 });
    const half = question('fix', { ...shared, defaults: { fixRate: 0.5 } });
    expectActs(half, { 'remedy:a': worked + 50, 'test:lit': 2 + worked + 50, 'pass-on': 100 });
  });

  test('a failed proof vouches for its opener, until that is made and what it gives puts the bench off at once', () => {
    const asked = question('fix', {
      ...LOCKED,
      tests: { ...LOCKED.tests, clear: { minutes: 0.5 } },
      findings: {
        a: { weight: 1, minutes: 4, expects: { clear: 'ok' } },
        b: { weight: 1, minutes: 7, expects: { clear: 'bad' } },
        first: { weight: 2, minutes: 1, prove: ['lit'] },
      },
    });
    const proof = 0.5 + 1 + 2;
    // The bench is live: either remedy closes the interlock and so puts it off, as does the opener where it is bad.
    const rest = 0.5 + 0.5 * (4 + 0.25) + 0.5 * (0.25 + 7 + 0.5);
    expect(rest).toBeLessThan(4 + 0.25 + 7 / 2);
    expect(referencePlan(asked).acts.get('remedy:first')).toBeCloseTo(1 + proof + rest / 2, 12);
  });
});
