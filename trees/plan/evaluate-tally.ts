import { own } from '../document/index.ts';
import type { Doing, Halt } from './evaluate-leg.ts';
import { testsOf, unitsIn, unitsOf, type Flow } from './evaluate-flow.ts';
import type { World } from './evaluate-world.ts';

/** What one thing that is done costs. */
export interface Item {
  readonly kind: 'test' | 'changeover' | 'remedy' | 'pass-on';
  /** The test's or remedy's (finding's) id; a changeover as `axis:from>to`; `pass-on`. */
  readonly id: string;
  /** Expected minutes a job. */
  readonly minutes: number;
  /** How often a job is expected to come to it. */
  readonly made: number;
  /** For a test: its mean position among the tests made, the first being 1. */
  readonly place?: number;
}

export interface Tally {
  readonly test: (test: number, flow: Flow) => void;
  readonly do: (doing: Doing, units: number) => void;
  readonly end: (halt: Exclude<Halt, { kind: 'test' }>, flow: Flow) => void;
  readonly cut: (flow: Flow) => void;
  readonly result: () => Tallied;
}

/** Totals in the terms of an `Evaluation`. */
export interface Tallied {
  readonly expectedMinutes: number;
  readonly expectedTests: number;
  readonly expectedChangeovers: number;
  readonly rightFinding: number;
  readonly wrongFix: number;
  readonly passedOn: number;
  readonly ends: readonly { readonly finding: string; readonly probability: number }[];
  readonly byItem: readonly Item[];
  readonly unexplored: number;
  readonly stoodFor: number;
  readonly testsMade: readonly string[];
}

interface Entry {
  readonly kind: Item['kind'];
  readonly id: string;
  readonly minutesEach: number;
  made: number;
  /** Sum of positions, each times the units. */
  positions: number;
}

/** The end of a job that no finding ends. */
const PASS_ON = 'pass-on';

export function openTally(world: World): Tally {
  const { tree, tests } = world.layout;
  const { escalate } = tree.defaults;
  const entries = new Map<string, Entry>();
  const ends = new Map<string, number>();
  const sums = { right: 0, wrong: 0, passedOn: 0, unexplored: 0, stoodFor: 0 };
  const count = (kind: Item['kind'], id: string, minutesEach: number, units: number): Entry => {
    const key = `${kind} ${id}`;
    const entry = entries.get(key) ?? { kind, id, minutesEach, made: 0, positions: 0 };
    entries.set(key, entry);
    entry.made += units;
    return entry;
  };
  const endAt = (finding: string, units: number) => ends.set(finding, (ends.get(finding) ?? 0) + units);
  const passOn = (units: number, costs: boolean) => {
    if (costs) count('pass-on', PASS_ON, escalate, units);
    sums.passedOn += units;
    endAt(PASS_ON, units);
  };
  const cut = (flow: Flow) => {
    passOn(unitsIn(flow), true);
    sums.unexplored += unitsIn(flow);
  };
  return {
    test(test, flow) {
      const units = unitsIn(flow);
      const { id = '' } = tests[test] ?? {};
      const entry = count('test', id, own(tree.tests, id)?.minutes ?? 0, units);
      entry.positions += units + testsOf(flow);
    },
    do(doing, units) {
      if (doing.kind === 'remedy') {
        count('remedy', doing.finding, world.remedyMinutes(doing.finding), units);
        return;
      }
      const { from, to, minutes } = doing.change;
      count('changeover', `${doing.axis}:${from}>${to}`, minutes, units);
    },
    end(halt, flow) {
      const all = unitsIn(flow);
      sums.stoodFor += flow.stoodFor;
      if (halt.kind === 'cut') return cut(flow);
      if (halt.kind === 'pass-on') return passOn(all, world.goal === 'fix');
      const row = halt.kind === 'fixed' ? world.mended : world.model.row(halt.finding);
      const right = unitsOf(flow, row);
      sums.right += right;
      sums.wrong += all - right;
      endAt(halt.finding, all);
    },
    cut,
    result: () => tallied([...entries.values()], ends, sums),
  };
}

function tallied(
  entries: readonly Entry[],
  ends: ReadonlyMap<string, number>,
  sums: { right: number; wrong: number; passedOn: number; unexplored: number; stoodFor: number },
): Tallied {
  const byItem = entries.map(itemOf).sort((a, b) => b.minutes - a.minutes);
  const made = (kind: Item['kind']) =>
    sum(byItem.filter((item) => item.kind === kind).map((item) => item.made));
  return {
    expectedMinutes: sum(byItem.map(({ minutes }) => minutes)),
    expectedTests: made('test'),
    expectedChangeovers: made('changeover'),
    rightFinding: sums.right,
    wrongFix: sums.wrong,
    passedOn: sums.passedOn,
    ends: [...ends]
      .map(([finding, probability]) => ({ finding, probability }))
      .sort((a, b) => b.probability - a.probability),
    byItem,
    unexplored: sums.unexplored,
    stoodFor: sums.stoodFor,
    testsMade: entries.filter(({ kind }) => kind === 'test').map(({ id }) => id),
  };
}

function itemOf({ kind, id, minutesEach, made, positions }: Entry): Item {
  const item = { kind, id, minutes: made * minutesEach, made };
  return kind === 'test' ? { ...item, place: positions / made } : item;
}

function sum(values: readonly number[]): number {
  return values.reduce((so, value) => so + value, 0);
}
