import { standing, type JobEvent, type Walk } from '../../trees/chart/index.ts';
import { own, type Tree } from '../../trees/document/index.ts';
import type { Goal } from '../../trees/plan/question.ts';
import { standInAnswer } from './stand-in-answer.ts';

/** What a technician who does the one act shown does next, and the minutes it takes. */
export type Next =
  | {
      readonly kind: 'do';
      readonly what: 'changeover' | 'start' | 'remedy';
      readonly event: JobEvent;
      readonly minutes: number;
      readonly id: string;
    }
  | { readonly kind: 'test'; readonly test: string; readonly minutes: number; readonly sound: string }
  | {
      readonly kind: 'end';
      readonly at: 'finding' | 'fixed' | 'pass-on';
      readonly id: string;
      readonly minutes: number;
    };

/** Reads the chart's act as the evaluation of a tree does, from the chart's own standing. */
export function nextOf(walk: Walk, goal: Goal, rate: number | null): Next {
  const { tree } = walk.chart;
  const { act } = standing(walk);
  const passOn = {
    kind: 'end',
    at: 'pass-on',
    id: 'pass-on',
    minutes: goal === 'fix' ? tree.defaults.escalate : 0,
  } as const;
  switch (act.kind) {
    case 'change': {
      const { from, to, minutes } = act.change;
      const event = { kind: 'change' as const, axis: act.axis, to };
      return { kind: 'do', what: 'changeover', event, minutes, id: `${act.axis}:${from}>${to}` };
    }
    case 'test': {
      const { minutes = 0, results = {} } = own(tree.tests, act.test) ?? {};
      const [first = ''] = Object.keys(results);
      const until =
        act.purpose.kind === 'interlock' ? (tree.interlocks[act.purpose.interlock]?.until ?? {}) : {};
      const allowed = own(until, act.test) ?? [first];
      const sound = Object.keys(results).find((result) => allowed.includes(result)) ?? first;
      return { kind: 'test', test: act.test, minutes, sound };
    }
    case 'finding':
      return goal === 'isolate'
        ? { kind: 'end', at: 'finding', id: act.finding, minutes: 0 }
        : {
            kind: 'do',
            what: 'start',
            event: { kind: 'start-remedy', finding: act.finding },
            minutes: 0,
            id: act.finding,
          };
    case 'remedy':
      return {
        kind: 'do',
        what: 'remedy',
        event: { kind: 'remedy-done' },
        minutes: remedyMinutes(tree, act.finding, rate),
        id: act.finding,
      };
    case 'mended':
      return { kind: 'end', at: 'fixed', id: act.finding, minutes: 0 };
    case 'adrift':
    case 'barred':
      return passOn;
    case 'contradiction':
    case 'closed':
      throw new Error(`The act should never be shown to this technician: ${act.kind}`);
  }
}

/** The answer event, or an error where the chart has no reading for it. */
export function answerEvent(walk: Walk, test: string, result: string): JobEvent {
  const event = standInAnswer(walk, test, result);
  if (event === null) throw new Error(`No reading gives ${result} of ${test}.`);
  return event;
}

function remedyMinutes(tree: Tree, finding: string, rate: number | null): number {
  const remedy = own(tree.findings, finding)?.remedy;
  if (remedy === undefined) return 0;
  const price = remedy.parts.reduce((sum, part) => sum + part.price, 0);
  return remedy.minutes + (rate === null ? 0 : (price / rate) * 60);
}
