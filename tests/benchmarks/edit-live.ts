import { openAnswering } from '../../app/editor/reckoner/answering.ts';
import type { FromReckoner } from '../../app/editor/reckoner/protocol.ts';
import { compileFaultModel, NO_HISTORY, sortingOf } from '../../trees/belief/index.ts';
import { checkTree, treeSchema } from '../../trees/document/index.ts';
import { liveTree, type Change, type DraftDocument, type Json } from '../../trees/edit/index.ts';
import { evaluateTraffic } from '../../trees/plan/index.ts';
import { largeTree } from '../support/large-tree.ts';
import { medianMs, type Measure } from './measure.ts';

const ROUNDS = 15;
const AT_MOST = 100;

/** An edit made over and over, each time to another value. */
interface Edited {
  readonly name: string;
  readonly path: readonly string[];
  readonly value: (round: number) => Json;
}

const BRANCH = ['symptoms', 'symptom', 'steps', 'step-50-3', 'then', 'faint'];

const EDITS: readonly Edited[] = [
  { name: 'a letter typed', path: ['tests', 'test-7', 'ask'], value: (round) => `Look ${String(round)}.` },
  { name: 'minutes of a test', path: ['tests', 'test-7', 'minutes'], value: (round) => 1 + round / 100 },
  { name: 'weight of a branch', path: [...BRANCH, 'weight'], value: (round) => 1 + round / 100 },
  {
    name: 'a branch led elsewhere',
    path: [...BRANCH, 'go'],
    value: (round) => `step-51-${String(round % 20)}`,
  },
];

/**
 * From an edit of a tree of 2,000 steps and 6,000 branches to its checks and its cost as the editor shows them, both ways through
 * the message that crosses between threads; against reading, checking and evaluating the tree from nothing.
 */
export default async function (): Promise<Measure[]> {
  const text = JSON.stringify(largeTree());
  const whole = medianMs(5, () => reckonAnew(text));
  return EDITS.flatMap((edit) => measuresOf(edit, text, whole));
}

function measuresOf({ name, path, value }: Edited, text: string, whole: number): Measure[] {
  const answering = openAnswering(() => performance.now());
  const figures = { history: NO_HISTORY, rate: 60 };
  const common = { version: 0, back: null, published: text, symptom: 'symptom' };
  const { tree } = liveTree(JSON.parse(text) as DraftDocument);
  const sorted = [{ sorting: sortingOf(tree), history: NO_HISTORY }];
  answering.take({ kind: 'open', text, figures, sorted, ...common });
  untilCost(answering.work);
  let round = 0;
  const checksMs: number[] = [];
  const cost = medianMs(ROUNDS, () => {
    round += 1;
    const from = performance.now();
    const changes: Change[] = [{ do: 'set', path, value: value(round) }];
    answering.take(structuredClone({ kind: 'edit', version: round, changes, back: changes } as const));
    const heard = untilCost(answering.work, () => checksMs.push(performance.now() - from));
    if (heard.kind !== 'cost' || !heard.costed.ok) throw new Error('The benchmark’s own tree has no cost.');
  });
  const checks = checksMs.toSorted((a, b) => a - b)[Math.floor(checksMs.length / 2)] ?? 0;
  return [
    { name: `${name}: to its checks`, figure: checks, unit: 'ms', limit: { atMost: AT_MOST } },
    { name: `${name}: to its cost`, figure: cost, unit: 'ms', limit: { atMost: AT_MOST } },
    {
      name: `${name}: to its cost / anew`,
      figure: cost / whole,
      unit: 'times',
      against: `reading, checking and evaluating it from nothing (${whole.toFixed(0)} ms)`,
    },
  ];
}

/** Works until the cost of the tree as it is has been said. */
function untilCost(work: () => FromReckoner | null | 'done', checked?: () => void): FromReckoner {
  for (let answer = work(); answer !== 'done'; answer = work()) {
    if (answer === null) continue;
    const heard = structuredClone(answer);
    if (heard.kind === 'checks') checked?.();
    if (heard.kind === 'cost' || heard.kind === 'failed') return heard;
  }
  throw new Error('The reckoner has not said what the tree costs.');
}

function reckonAnew(text: string): void {
  const tree = treeSchema.parse(JSON.parse(text));
  checkTree(tree);
  evaluateTraffic({ model: compileFaultModel(tree, NO_HISTORY), symptom: 'symptom', rate: 60 });
}
