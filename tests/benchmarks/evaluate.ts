import { readFileSync } from 'node:fs';
import { compileFaultModel, NO_HISTORY, type FaultModel } from '../../trees/belief/index.ts';
import { treeSchema } from '../../trees/document/index.ts';
import { evaluate, type Goal } from '../../trees/plan/index.ts';
import { enumerateJobs } from '../support/enumerate-jobs.ts';
import { largeTree } from '../support/large-tree.ts';
import { smallTree } from '../support/trees.ts';
import { medianMs, type Measure } from './measure.ts';

const ROUNDS = 11;
const SHIPPED = ['kw1-panel', 'kw1-usb-charge'];
const RATE = 60;

/**
 * What a tree costs as it stands: every symptom of the shipped trees, and a path of 2,000 steps; and a small tree against
 * walking the chart's machine through every outcome.
 */
export default async function (): Promise<Measure[]> {
  const shipped = SHIPPED.map(shippedModel);
  const large = compileFaultModel(largeTree(), NO_HISTORY);
  const question = { model: large, symptom: 'symptom', goal: 'isolate', rate: RATE } as const;
  evaluate(question);
  return [
    ...shipped.flatMap((model) => [slowest(model, 'isolate', 50), slowest(model, 'fix', 300)]),
    {
      name: 'isolate, 2,000 steps (the fault model’s tables made before)',
      figure: medianMs(ROUNDS, () => evaluate(question)),
      unit: 'ms',
      limit: { atMost: 100 },
    },
    againstMachine(),
  ];
}

/** The symptom of a tree that takes longest, by the median of its rounds. */
function slowest(model: FaultModel, goal: Goal, atMost: number): Measure {
  const timed = Object.keys(model.tree.symptoms).map((symptom) => ({
    symptom,
    ms: medianMs(ROUNDS, () => evaluate({ model, symptom, goal, rate: RATE })),
  }));
  const { symptom, ms } = timed.reduce((most, one) => (one.ms > most.ms ? one : most));
  const name = `${goal}, ${model.tree.id}, slowest of ${String(timed.length)} symptoms (${symptom})`;
  return { name, figure: ms, unit: 'ms', limit: { atMost } };
}

function againstMachine(): Measure {
  const model = compileFaultModel(smallTree(), NO_HISTORY);
  const question = { model, symptom: 'no-sound', goal: 'fix', rate: RATE } as const;
  const machine = medianMs(3, () => enumerateJobs(question, 100_000));
  const fast = medianMs(ROUNDS, () => evaluate(question));
  return {
    name: 'evaluate / enumerate, small tree, fix',
    figure: fast / machine,
    unit: 'times',
    limit: { atMost: 0.2 },
    against: `walking the machine through every outcome (${machine.toFixed(0)} ms)`,
  };
}

function shippedModel(name: string): FaultModel {
  const file = `${import.meta.dirname}/../../trees/library/${name}.tree.json`;
  return compileFaultModel(treeSchema.parse(JSON.parse(readFileSync(file, 'utf8'))), NO_HISTORY);
}
