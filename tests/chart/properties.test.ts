import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createActor } from 'xstate';
import {
  advance,
  compileChart,
  machineEvent,
  replay,
  standing,
  startWalk,
  type JobEvent,
  type Walk,
} from '../../trees/chart/index.ts';
import { arbitraryTree } from '../support/arbitrary-tree.ts';
import { actEvent, after, drawEvent, follow, stateOf, wander, type Dice } from './walking.ts';

/** The first number of a throw that leaves the test of the present step out. */
const LEAVE_OUT = 8;
const dice = fc.tuple(fc.nat(9999), fc.nat(9999), fc.nat(9999), fc.nat(9999));
/** Of little else than acts, answers, tests left out and tests turned to. */
const leavingThrows: fc.Arbitrary<readonly Dice[]> = fc.array(
  fc.tuple(fc.constantFrom(0, 4, LEAVE_OUT, 9), fc.nat(9999), fc.nat(9999), fc.nat(9999)),
  { maxLength: 30, size: 'max' },
);
const throws = fc.oneof(fc.array(dice, { maxLength: 45, size: 'max' }), leavingThrows);
const RUNS = { numRuns: 150 };

/** Every walk on random ways through random trees. */
function eachWalk(
  check: (walk: Walk, event: JobEvent | undefined, before: Walk | undefined) => void,
  ways = throws,
): void {
  fc.assert(
    fc.property(arbitraryTree(), fc.nat(9), ways, (tree, which, drawn) => {
      const symptoms = Object.keys(tree.symptoms);
      const walks = wander(compileChart(tree), symptoms[which % symptoms.length] ?? '', drawn);
      walks.forEach(({ walk, event }, place) => check(walk, event, walks[place - 1]?.walk));
    }),
    RUNS,
  );
}

describe('random walks of random trees', () => {
  it('come to the same state when they are replayed from the events taken, take-backs among them', () => {
    fc.assert(
      fc.property(arbitraryTree(), throws, (tree, drawn) => {
        const chart = compileChart(tree);
        const symptom = Object.keys(tree.symptoms)[0] ?? '';
        const ways = wander(chart, symptom, drawn);
        const walked = ways.at(-1)?.walk ?? startWalk(chart, symptom);
        for (const events of [ways.flatMap(({ event }) => event ?? []), walked.trail]) {
          const again = replay(compileChart(tree), symptom, events);
          expect(again.ok && stateOf(again.walk)).toEqual(stateOf(walked));
        }
      }),
      RUNS,
    );
  });

  it('never change over into a state while an interlock that watches it is barred', () => {
    eachWalk((_, event, before) => {
      if (event?.kind !== 'change' || before === undefined) return;
      const { interlocks } = standing(before);
      before.chart.tree.interlocks.forEach(({ change }, index) => {
        if (Object.hasOwn(change, event.axis) && change[event.axis] === event.to)
          expect(interlocks[index]).toBe('open');
      });
    });
  });

  it('are never asked a test while the bench does not stand as it needs', () => {
    eachWalk((walk) => {
      const { act, bench } = standing(walk);
      if (act.kind !== 'test') return;
      expect(bench).toMatchObject(walk.chart.tree.tests[act.test]?.needs ?? {});
    });
  });

  it('never come to a dead end: an open job can be closed, and the act shown can be done', () => {
    eachWalk((walk) => {
      const now = standing(walk);
      if (now.act.kind === 'closed') {
        expect([...now.allows]).toEqual(['take-back']);
        return;
      }
      expect(now.allows).toContain('close');
      if (now.act.kind === 'adrift')
        expect([...now.allows]).toEqual(expect.arrayContaining(['turn-to', 'start-remedy']));
      const sound =
        now.act.kind === 'test' ? Object.keys(walk.chart.tree.tests[now.act.test]?.results ?? {})[0] : '';
      const event = actEvent(walk, now, sound ?? '', 1);
      if (event === null) return;
      expect(now.allows).toContain(event.kind);
      expect(advance(walk, event)).toMatchObject({ ok: true });
    });
  });

  it('are where they were once a test was turned to and back, tests left out on the way', () => {
    const seen = { adrift: 0, met: 0 };
    eachWalk((walk) => {
      const { act, allows } = standing(walk);
      if (act.kind === 'adrift' && act.because === 'skipped') seen.adrift += 1;
      if (walk.snapshot.context.leavings.some(({ to }) => to !== null)) seen.met += 1;
      const aside = advance(walk, { kind: 'turn-to', test: Object.keys(walk.chart.tree.tests)[0] ?? '' });
      if (!aside.ok || allows.has('turn-back')) return;
      const { value, context } = after(aside.walk, { kind: 'turn-back' }).snapshot;
      expect({ value, context }).toEqual({ value: walk.snapshot.value, context: walk.snapshot.context });
    }, leavingThrows);
    expect(Math.min(seen.adrift, seen.met)).toBeGreaterThan(10);
  });

  it('take no event of a kind that is not allowed there', () => {
    eachWalk((_, event, before) => {
      if (event !== undefined && before !== undefined) expect(standing(before).allows).toContain(event.kind);
    });
  });

  it('are at an asking state exactly when the bench stands as the test of the place needs', () => {
    eachWalk((walk) => {
      const { step, bench } = standing(walk);
      if (step === null) return;
      const { tests, symptoms } = walk.chart.tree;
      const needs = Object.entries(tests[symptoms[step.symptom]?.steps[step.step]?.test ?? '']?.needs ?? {});
      const met = needs.every(([axis, state]) => bench[axis] === state);
      const state = { path: { [step.symptom]: { [step.step]: met ? 'asking' : 'preparing' } } };
      const bare = { path: { [step.symptom]: step.step } };
      expect(walk.snapshot.value).toHaveProperty('course', needs.length === 0 ? bare : state);
    });
  });

  it('keep the bench that the regions show and the one in the context the same', () => {
    eachWalk(({ snapshot, chart }) => {
      const regions = Object.keys(chart.tree.bench).length === 0 ? {} : snapshot.value;
      expect(regions).toMatchObject(regions === snapshot.value ? { bench: snapshot.context.bench } : {});
    });
  });

  it('take the same events as the machine does when asked directly', () => {
    fc.assert(
      fc.property(arbitraryTree(), throws, throws, (tree, drawn, others) => {
        const ways = wander(compileChart(tree), Object.keys(tree.symptoms)[0] ?? '', drawn);
        for (const [place, { walk }] of ways.entries()) {
          const event = drawEvent(walk, others[place] ?? [place, place, place, place]);
          if (event.kind === 'take-back') continue;
          expect(walk.snapshot.can(machineEvent(event))).toBe(advance(walk, event).ok);
        }
      }),
      RUNS,
    );
  });

  it('are the same when XState runs the machine as an actor', () => {
    fc.assert(
      fc.property(arbitraryTree(), throws, (tree, drawn) => {
        const chart = compileChart(tree);
        const symptom = Object.keys(tree.symptoms)[0] ?? '';
        const walk = wander(chart, symptom, drawn).at(-1)?.walk ?? startWalk(chart, symptom);
        const actor = createActor(chart.machine, { input: { symptom } }).start();
        for (const event of walk.trail) actor.send(machineEvent(event));
        const { value, context } = actor.getSnapshot();
        expect({ value, context }).toEqual({ value: walk.snapshot.value, context: walk.snapshot.context });
      }),
      RUNS,
    );
  });

  it('come to an end when the acts shown are followed with whatever answers', () => {
    fc.assert(
      fc.property(arbitraryTree(), throws, fc.nat(9999), (tree, drawn, answers) => {
        const ways = wander(compileChart(tree), Object.keys(tree.symptoms)[0] ?? '', drawn.slice(0, 20));
        const last = ways.at(-1)?.walk;
        if (last !== undefined) follow(last, (test) => answers + test.length);
      }),
      RUNS,
    );
  });
});

describe('advance', () => {
  it('refuses whatever is not an event of the chart, and never throws', () => {
    const oddId = fc.constantFrom(
      'constructor',
      '__proto__',
      'toString',
      'test-0',
      'result-0',
      'unlisted',
      'x',
    );
    const event = fc.oneof(
      fc.anything(),
      fc.record(
        {
          kind: fc.constantFrom('answer', 'correct', 'skip', 'turn-to', 'settle'),
          test: oddId,
          result: oddId,
        },
        { requiredKeys: ['kind'] },
      ),
      fc.record({ kind: fc.constant('skip'), test: oddId, as: oddId, reason: fc.string() }),
      fc.record({ kind: fc.constant('turn-to'), test: oddId }),
      fc.record({ kind: fc.constant('change'), axis: oddId, to: oddId }),
      fc.record(
        { kind: fc.constant('start-remedy'), finding: oddId, what: fc.string() },
        { requiredKeys: ['kind', 'finding'] },
      ),
      fc.record({
        kind: fc.constant('answer'),
        test: oddId,
        result: oddId,
        reading: fc.record({
          value: fc.double(),
          typed: fc.string(),
          accuracy: fc.constant({ percent: 0, constant: 0 }),
        }),
      }),
    );
    fc.assert(
      fc.property(arbitraryTree(), fc.array(event, { maxLength: 12 }), (tree, events) => {
        let walk = startWalk(compileChart(tree), Object.keys(tree.symptoms)[0] ?? '');
        for (const one of events) {
          const next = advance(walk, one as JobEvent);
          if (next.ok) walk = next.walk;
          else expect(next.refusal.code).toMatch(/^[a-z]+(-[a-z]+)*$/);
        }
        expect(standing(walk).job.symptom).toBe(walk.snapshot.context.job.symptom);
      }),
      RUNS,
    );
  });
});
