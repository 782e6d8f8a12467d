import { assign, setup } from 'xstate';
import type { Tree } from '../document/index.ts';
import { contradicts, isLeftOut, replaces, resultToGoBy } from './answers.ts';
import { isMet } from './changeover.ts';
import { courseNode } from './course.ts';
import type { JobEvent } from './event.ts';
import { isMetAt, meetsElsewhere, metAgain } from './leaving.ts';
import type { Place } from './place.ts';
import { refuse } from './refuse.ts';
import { remedyNeeds } from './refuse-remedy.ts';
import { isRemedy, proofNeeds, proofProgress, remedyNow, remedyState, withLast } from './remedy.ts';
import { firstSituation, type CourseSituation, type Situation } from './situation.ts';
import type { StepRef } from './standing.ts';
import { updated } from './update.ts';

/** A job event as the machine takes it: with its kind as the type too. */
export type MachineEvent = {
  [K in JobEvent['kind']]: JobEvent & { readonly kind: K; readonly type: K };
}[JobEvent['kind']];

/** The machine of a tree: symptom in, a parallel state of `course` and `bench`, and the situation as context. */
export type ChartMachine = ReturnType<typeof machineOf>;

/** Any of the chart's states as the rooms below write it. */
export type Node = Parameters<ReturnType<typeof setupOf>['createStateConfig']>[0];

/** A job event with the type field that XState goes by. */
export function machineEvent(event: JobEvent): MachineEvent {
  return { ...event, type: event.kind } as MachineEvent;
}

/**
 * The statechart of one tree revision. `course` has a state for each step, test made aside, finding, remedy and proof; it
 * moves on along the path by eventless transitions wherever an answer or a skip says which branch to take. `bench` has a
 * region for each axis. Guards only read, actions only replace the context.
 */
export function machineOf(tree: Tree) {
  return setupOf(tree).createMachine({
    id: 'job',
    type: 'parallel',
    // XState's pure transition() starts a throwaway actor without input each time, so a missing one must not fail.
    context: ({ input }) => ({ ...firstSituation(tree, input?.symptom ?? ''), leavings: [] }),
    states: { course: courseNode(tree), bench: benchNode(tree) },
  });
}

function setupOf(tree: Tree) {
  const allowed = (at: Situation, event: JobEvent, place: Place = { kind: 'contradiction' }) =>
    refuse(tree, at, place, event) === null;
  return setup({
    types: {} as {
      context: CourseSituation;
      events: MachineEvent;
      input: { readonly symptom: string } | undefined;
    },
    guards: {
      allowed: ({ context, event }) => allowed(context, event),
      isAllowedReplacing: ({ context, event }) =>
        event.kind === 'answer' &&
        (replaces(context.job, event.test) || meetsElsewhere(tree, context, event.test)) &&
        allowed(context, event),
      isAllowedContradicting: ({ context, event }) =>
        event.kind === 'answer' &&
        contradicts(context.job, event.test, event.result) &&
        allowed(context, event),
      isAllowedAnswerTo: ({ context, event }, { test }: { test: string }) =>
        event.kind === 'answer' && event.test === test && allowed(context, event),
      isAllowedSkipOf: ({ context, event }, { test }: { test: string }) =>
        event.kind === 'skip' && event.test === test && allowed(context, event, { kind: 'aside', test }),
      isAllowedTurnTo: ({ context, event }, { test }: { test: string }) =>
        event.kind === 'turn-to' && event.test === test && allowed(context, event),
      isAllowedTurnBack: ({ context }) => context.job.outcome === undefined,
      isAllowedChange: ({ context, event }, { axis, to }: { axis: string; to: string }) =>
        event.kind === 'change' && event.axis === axis && event.to === to && allowed(context, event),
      isSymptom: ({ context }, { symptom }: { symptom: string }) => context.job.symptom === symptom,
      goesBy: ({ context }, { test, result }: { test: string; result: string }) =>
        resultToGoBy(context.job, test) === result,
      isLeftOut: ({ context }, { test }: { test: string }) => isLeftOut(context.job, test),
      isNotMet: ({ context }) => (context.leavings.at(-1)?.to ?? null) === null,
      isMetBy: ({ context }, { test }: { test: string }) => context.leavings.at(-1)?.to?.test === test,
      isMetAt: ({ context }, step: StepRef) => isMetAt(context, step),
      isMet: ({ context }, { test }: { test: string }) => isMet(tree.tests[test]?.needs ?? {}, context),
      isUnmet: ({ context }, { test }: { test: string }) => !isMet(tree.tests[test]?.needs ?? {}, context),
      isRemedyMet: ({ context }) => isMet(remedyNeeds(tree, context.job), context),
      isRemedyUnmet: ({ context }) => !isMet(remedyNeeds(tree, context.job), context),
      isProofMet: ({ context }) => isMet(proofNeeds(tree, context.job), context),
      isProofUnmet: ({ context }) => !isMet(proofNeeds(tree, context.job), context),
      isContradicted: ({ context }) => context.job.contradiction !== undefined,
      isInHand: ({ context }) => isRemedy(context.job, 'in-hand'),
      isProving: ({ context }) => isRemedy(context.job, 'proving'),
      isMended: ({ context }) => isRemedy(context.job, 'mended'),
      isAbout: ({ context }, { finding }: { finding: string }) => remedyNow(context.job)?.finding === finding,
      hasFailed: ({ context }, { finding }: { finding: string }) =>
        remedyState(context.job, finding) === 'not-mended',
      leadsOn: ({ context }, { finding, symptom }: { finding: string; symptom: string }) =>
        context.job.symptom === symptom &&
        remedyState(context.job, finding) === 'not-mended' &&
        !context.passed.includes(finding),
      isProofPassed: ({ context }) => proofProgress(tree, context).kind === 'passed',
      isProofFailed: ({ context }) => proofProgress(tree, context).kind === 'failed',
    },
    actions: {
      update: assign({ job: ({ context, event }) => updated(tree, context.job, event) }),
      setOut: assign({ passed: [], leavings: [] }),
      pass: assign({
        passed: ({ context }, { finding }: { finding: string }) => [...context.passed, finding],
      }),
      leave: assign({
        leavings: ({ context: { job, leavings } }, from: StepRef) => [
          ...leavings,
          { from, to: metAgain(tree, job, from) },
        ],
      }),
      changeOver: assign({
        bench: ({ context }, { axis, to }: { axis: string; to: string }) => ({
          ...context.bench,
          [axis]: to,
        }),
      }),
      setMended: assign({
        job: ({ context }) => withLast(context.job, (remedy) => ({ ...remedy, state: 'mended' as const })),
      }),
      setNotMended: assign({
        job: ({ context }) =>
          withLast(context.job, (remedy) => ({ ...remedy, state: 'not-mended' as const })),
      }),
    },
  });
}

/** One region for each axis; a changeover is barred by its guard while an interlock that watches its state is shut. */
function benchNode(tree: Tree): Node {
  const axes = Object.entries(tree.bench);
  if (axes.length === 0) return {};
  return { type: 'parallel', states: Object.fromEntries(axes.map(([axis, a]) => [axis, axisNode(axis, a)])) };
}

function axisNode(axis: string, { start, states, changes }: Tree['bench'][string]): Node {
  const nodes = Object.keys(states).map((state): [string, Node] => {
    const on = changes
      .filter(({ from }) => from === state)
      .map(({ to }) => ({
        guard: { type: 'isAllowedChange' as const, params: { axis, to } },
        target: to,
        actions: { type: 'changeOver' as const, params: { axis, to } },
      }));
    return [state, { on: { change: on } }];
  });
  return { initial: start, states: Object.fromEntries(nodes) };
}
