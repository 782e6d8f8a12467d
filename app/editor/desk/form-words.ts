import { INSTRUMENTS, own, type Tree } from '../../../trees/document/index.ts';
import { INSTRUMENT_WORDS } from '../../shell/index.ts';
import { stepWords, titled } from './part-words.ts';

/** How the editor says what the checker says in words of the file: the sentence put right, and what to do in the form. */
interface InForm {
  readonly message?: (message: string, tree: Tree) => string;
  readonly help?: (at: string) => string;
}

const help = (words: string): InForm => ({ help: () => words });

/** By the checker's rule. A rule that is not here says nothing of the file. A message that has been put right stays as it is. */
export const IN_FORM: Readonly<Record<string, InForm>> = {
  'unknown-axis': {
    message: (message) => message.replace('There is no axis', 'There are no bench states'),
    help: () => 'At its place take this bench state out, or add bench states and choose one of them there.',
  },
  'unknown-state': help('At its place choose a state that its bench states have, or add one to them.'),
  'unknown-test': help(
    'At its place choose a test that the tree has, or take this one out. A new one is added under Tests.',
  ),
  'unknown-result': help('At its place choose a result that the test has, or take this one out.'),
  'unknown-finding': help(
    'At its place choose a finding that the tree has, or take this one out. A new one is added under Findings.',
  ),
  'unknown-symptom': help('At its place choose a symptom that the tree has, or somewhere else to go on.'),
  'unknown-step': help('At its place choose a step that the path has, or add one there.'),
  'reserved-id': {
    message: () => 'A finding cannot be called “unlisted”: that stands for whatever is not in this tree.',
    help: () => 'Add the finding again under another title, and delete this one.',
  },
  'no-way-in': {
    message: (message) =>
      message.replace('has neither a first step nor weights', 'has no path and no weights'),
    help: () =>
      'Start its path, or give the findings that occur a weight and leave the order to the planner.',
  },
  'no-path': help('Start its path, or lead somewhere else.'),
  'missing-steps': {
    message: (message) => message.replace('and its “steps” are missing', 'and its path has no steps'),
    help: () =>
      'Start the path with a test, or leave the order to the planner and give the findings weights.',
  },
  'missing-branch': help('Say at this step where the result leads.'),
  loop: {
    message: inSteps,
    help: () => 'Lead one of their branches to a finding, or to a step outside the loop.',
  },
  'otherwise-not-in-path': help('Choose the step again by the path that has it, or somewhere else to go on.'),
  'band-without-reading': help('Have the test answered by a reading, or take the limits out.'),
  'missing-band': help('Give it a lower limit, an upper limit or both.'),
  'band-empty': {
    message: (message) =>
      message.replace(
        /: from (\S+) is not below to (.+)\.$/,
        ': its lower limit, $1, is not below its upper limit, $2.',
      ),
    help: () => 'Put the lower limit below the upper one.',
  },
  'band-gap': help(
    'Let each band begin where the one below ends, the lowest without a lower limit, the topmost without an upper one.',
  ),
  'band-loop': { message: inTests },
  'change-to-itself': help('Choose another state to go from or to, or take the changeover out.'),
  'shares-sum': {
    message: (message) =>
      message.replace(
        /sum to ([\d.]+), not to 1\.$/,
        (_, sum: string) => `sum to ${percent(sum)}, not to 100 %.`,
      ),
    help: () => 'Mend the shares so that they sum to 100 %.',
  },
  'interlock-empty': {
    help: (at) =>
      at.endsWith('/change')
        ? 'Choose the bench state that it bars, and into which no changeover is made.'
        : 'Choose the tests that open it, and tick the results that do.',
  },
  'missing-proof': help('Add the complaint’s own test under Proof, and those the work could have broken.'),
  'missing-caution': help('Say under Cautions what can hurt and how to keep clear of it.'),
  'findings-alike': help(
    'Add a test that they give different results, or say under “What it makes tests give” how they differ.',
  ),
  'expectation-against-path': {
    message: (message) =>
      message.replace('of which “expects” says that it', 'which, by “What it makes tests give”,'),
    help: () =>
      'Lead the branch elsewhere, or say of the finding how often it makes the test give this result.',
  },
  'unit-unlike-instrument': {
    message: (message) =>
      inUnits(
        INSTRUMENTS.reduce((words, one) => words.replace(`“${one}”`, `“${INSTRUMENT_WORDS[one]}”`), message),
      ),
    help: () =>
      'Choose how the test is answered by what its instrument measures, or choose another instrument.',
  },
};

/** The steps of a loop, written `symptom/step`, as lists of steps have them. */
function inSteps(message: string, tree: Tree): string {
  const several = Object.keys(tree.symptoms).length > 1;
  return message.replace(/([a-z0-9-]+)\/([a-z0-9-]+)(?= →|\.$)/g, (asItIs, symptom: string, step: string) => {
    const path = own(tree.symptoms, symptom);
    if (path === undefined || !Object.hasOwn(path.steps, step)) return asItIs;
    const words = stepWords(tree, symptom, step);
    return several ? `${words} of ${titled(path.title)}` : words;
  });
}

/** The tests of a loop, written by their ids, by their titles. */
function inTests(message: string, tree: Tree): string {
  return message.replace(/(?<=: |→ )([a-z][a-z0-9-]*)(?= →|\.$)/g, (id) => {
    const test = own(tree.tests, id);
    return test === undefined ? id : `“${titled(test.title)}”`;
  });
}

function inUnits(message: string): string {
  return message.replace(/\bohm\b/g, 'Ω').replace(/\bdegC\b/g, '°C');
}

/** A share in per cent, to four digits after the point at most. */
function percent(share: string): string {
  return `${String(Number((Number(share) * 100).toFixed(4)))} %`;
}
