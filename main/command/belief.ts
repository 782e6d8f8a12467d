import {
  beliefOf,
  branchLikelihoods,
  chosen,
  compileFaultModel,
  NO_HISTORY,
  readingWeights,
  type BranchLikelihood,
  type FindingBelief,
  type Observation,
} from '../../trees/belief/index.ts';
import { stepsOf, type Tree } from '../../trees/document/index.ts';
import { text, texts, type Asked, type Command } from './command.ts';
import { readGiven, type Given } from './given.ts';
import { findingTitle, percent } from './lines.ts';
import { value, wrongUse, type Or, type Outcome } from './outcome.ts';
import { shopOf } from './shop.ts';
import { soundDocument } from './tree-file.ts';

interface StepLikelihoods {
  readonly step: string;
  readonly test: string;
  readonly branches: readonly BranchLikelihood[];
}

/** `belief FILE`: how likely each finding is, and how likely each result of every step whose test is not made yet. */
export const belief: Command = {
  usage: 'belief FILE --symptom ID [--given TEST=RESULT|TEST=READING]… [--db FILE] [--json]',
  says: 'the findings with their probability, and the branch likelihoods of the open steps',
  options: { symptom: { type: 'string' }, given: { type: 'string', multiple: true }, db: { type: 'string' } },
  run: async (asked) => {
    const found = await believe(asked);
    return found.ok ? found.value : found.outcome;
  },
};

async function believe(asked: Asked): Promise<Or<Outcome>> {
  const named = treeAndSymptom(asked, belief.usage);
  if (!named.ok) return named;
  const { tree, symptom } = named.value;
  const shop = await shopOf(text(asked, 'db'), tree.id);
  if (!shop.ok) return shop;
  const given = readGiven(tree, texts(asked, 'given'), shop.value.accuracies);
  if (!given.ok) return given;
  const model = compileFaultModel(tree, shop.value.history ?? NO_HISTORY);
  const observations = given.value.map((one) => observed(tree, one));
  const { findings } = beliefOf(model, symptom, { observations, failed: [] });
  const made = new Set(given.value.map(({ test }) => test));
  const steps = stepsOf(tree, symptom)
    .filter(({ test }) => !made.has(test))
    .map(({ symptom: of, step, test }) => ({
      step: of === symptom ? step : `symptom:${of}/${step}`,
      test,
      branches: branchLikelihoods(model, { findings, impossible: false }, test),
    }));
  return value({ status: 0, text: table(tree, findings, steps), json: asJson(findings, steps) });
}

/** A symptom of the tree in a file, and the text that the tree was read from. */
interface Named {
  readonly file: string;
  readonly tree: Tree;
  readonly written: string;
  readonly symptom: string;
}

/** The tree named on the command line, checked, and the symptom of it that was asked for. */
export function treeAndSymptom(asked: Asked, usage: string): Or<Named> {
  const [file, ...more] = asked.positionals;
  if (file === undefined || more.length > 0)
    return wrongUse('One FILE must be named.', `Write: ohmward ${usage}`);
  const sound = soundDocument(file);
  if (!sound.ok) return sound;
  const { tree } = sound.value;
  const symptoms = `The symptoms of this tree are: ${Object.keys(tree.symptoms).join(', ')}.`;
  const symptom = text(asked, 'symptom');
  if (symptom === undefined) return wrongUse('--symptom is missing.', symptoms);
  if (tree.symptoms[symptom] === undefined)
    return wrongUse(`The tree has no symptom "${symptom}".`, symptoms);
  return value({ file, ...sound.value, symptom });
}

function observed(tree: Tree, { test: id, result, reading, reference }: Given): Observation {
  const test = tree.tests[id];
  if (reading === undefined || test === undefined) return chosen(id, result);
  const weighed = readingWeights(test, reading, reference);
  if (!weighed.ok) throw new Error(`${weighed.code}: a reading that has a band cannot be weighed`);
  return { test: id, weights: weighed.weights };
}

function asJson(findings: readonly FindingBelief[], steps: readonly StepLikelihoods[]) {
  return {
    findings: findings.map(({ finding, probability, jobs }) => ({ id: finding, probability, jobs })),
    steps,
  };
}

function table(tree: Tree, findings: readonly FindingBelief[], steps: readonly StepLikelihoods[]): string {
  const rows = findings.map(
    ({ finding, probability, jobs }) =>
      `${percent(probability)}  ${jobs} jobs  ${finding}: ${findingTitle(tree, finding)}`,
  );
  const open = steps.flatMap(({ step, test, branches }) => [
    `${step} (${test})`,
    ...branches.map(({ result, probability, jobs }) => `${percent(probability)}  ${jobs} jobs  ${result}`),
  ]);
  return ['Findings', ...rows, 'Open steps', ...open].join('\n');
}
