import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { own, type Tree } from '../../trees/document/index.ts';
import { evaluate as evaluated, type Evaluation, type Goal } from '../../trees/plan/index.ts';
import { treeAndSymptom } from './belief.ts';
import { text, type Asked, type Command } from './command.ts';
import { findingTitle, minutesColumn, percent, titled } from './lines.ts';
import { trouble, value, type Or, type Outcome } from './outcome.ts';
import { goalOf, rateOf } from './planning.ts';
import { shopOf } from './shop.ts';

/** `evaluate FILE`: what a symptom's path costs as it stands, over every outcome. */
export const evaluate: Command = {
  usage: 'evaluate FILE --symptom ID [--goal isolate|fix] [--rate N] [--db FILE] [--json]',
  says: 'what a tree costs as it stands: expected minutes, tests and changeovers, and where jobs end (goal: fix)',
  options: {
    symptom: { type: 'string' },
    goal: { type: 'string' },
    rate: { type: 'string' },
    db: { type: 'string' },
  },
  run: async (asked) => {
    const found = await evaluation(asked);
    return found.ok ? found.value : found.outcome;
  },
};

async function evaluation(asked: Asked): Promise<Or<Outcome>> {
  const named = treeAndSymptom(asked, evaluate.usage);
  if (!named.ok) return named;
  const { tree, symptom } = named.value;
  const goal = goalOf(asked, 'fix');
  if (!goal.ok) return goal;
  const rate = rateOf(asked);
  if (!rate.ok) return rate;
  if (own(tree.symptoms, symptom)?.first === undefined) return noPath(symptom);
  const shop = await shopOf(text(asked, 'db'), tree.id);
  if (!shop.ok) return shop;
  const { history, hourlyRate } = shop.value;
  const model = compileFaultModel(tree, history ?? NO_HISTORY);
  const found = evaluated({ model, symptom, goal: goal.value, rate: rate.value ?? hourlyRate });
  return value({ status: 0, text: asText(tree, goal.value, found), json: evaluationJson(found) });
}

function noPath(symptom: string) {
  return trouble(
    'NO_PATH',
    `The symptom "${symptom}" has no path that could be evaluated: its "first" is absent.`,
    'Ask plan what to do first, or have propose write a path.',
  );
}

/** The figures that are asked for most first. */
export function evaluationJson({
  expectedMinutes,
  expectedTests,
  expectedChangeovers,
  rightFinding,
  ambiguityGroups,
  ...more
}: Evaluation) {
  return {
    expectedMinutes,
    expectedTests,
    expectedChangeovers,
    rightFinding,
    ambiguityGroups,
    ...more,
  };
}

function asText(tree: Tree, goal: Goal, found: Evaluation): string {
  const groups = found.ambiguityGroups.map((group) => `  ${group.join(', ')}`);
  return [
    ...[...figures(goal, found), ...unfollowed(found)].map(
      ({ shown, what }) => `${shown.padStart(7)}  ${what}`,
    ),
    'Where jobs end',
    ...found.ends.map(({ finding, probability }) => `${percent(probability)}  ${endTitle(tree, finding)}`),
    groups.length === 0
      ? 'The tests on the way tell all findings apart'
      : 'Findings that no test on the way tells apart',
    ...groups,
    'Minutes expected, by what is done',
    ...found.byItem.map(
      ({ kind, id, minutes, made }) =>
        `${minutesColumn(minutes)}  ${made.toFixed(2)} times  ${titled(tree, kind, id)}`,
    ),
  ].join('\n');
}

/** A figure as it is shown, and what it is. */
interface Figure {
  readonly shown: string;
  readonly what: string;
}

/** What an evaluation comes to, in six figures. */
export function figures(goal: Goal, found: Evaluation): readonly Figure[] {
  const [right, wrong, neither] =
    goal === 'fix'
      ? ['mended, and closed as fixed', 'closed as fixed though not mended', 'passed on']
      : ['end at the finding that the unit has', 'end at another finding', 'end without a finding'];
  return [
    { shown: found.expectedMinutes.toFixed(1), what: 'minutes expected' },
    { shown: found.expectedTests.toFixed(1), what: 'tests expected' },
    { shown: found.expectedChangeovers.toFixed(1), what: 'changeovers expected' },
    { shown: percent(found.rightFinding), what: right },
    { shown: percent(found.wrongFix), what: wrong },
    { shown: percent(found.passedOn), what: neither },
  ];
}

/** What an evaluation has not followed one by one, where there is any. */
function unfollowed({ stoodFor, unexplored }: Evaluation): readonly Figure[] {
  const what = {
    stoodFor: 'on ways so unlikely that others like them stood for them',
    unexplored: 'not followed to their end, and counted as passed on',
  };
  return [
    ...(stoodFor > 0 ? [{ shown: percent(stoodFor), what: what.stoodFor }] : []),
    ...(unexplored > 0 ? [{ shown: percent(unexplored), what: what.unexplored }] : []),
  ];
}

function endTitle(tree: Tree, end: string): string {
  return end === 'pass-on' ? 'passed on' : `${end}: ${findingTitle(tree, end)}`;
}
