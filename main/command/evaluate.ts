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
  return value({ status: 0, text: asText(tree, goal.value, found), json: asJson(found) });
}

function noPath(symptom: string) {
  return trouble(
    'NO_PATH',
    `The symptom "${symptom}" has no path that could be evaluated: its "first" is absent.`,
    'Ask plan what to do first, or have propose write a path.',
  );
}

function asJson({
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
    ...figures(goal, found),
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

function figures(goal: Goal, found: Evaluation): readonly string[] {
  const [right, wrong, neither] =
    goal === 'fix'
      ? ['mended, and closed as fixed', 'closed as fixed though not mended', 'passed on']
      : ['end at the finding that the unit has', 'end at another finding', 'end without a finding'];
  const left: readonly [number, string][] = [
    [found.stoodFor, 'on ways so unlikely that others like them stood for them'],
    [found.unexplored, 'not followed to their end, and counted as passed on'],
  ];
  return [
    `${minutesColumn(found.expectedMinutes)}  minutes expected`,
    `${minutesColumn(found.expectedTests)}  tests expected`,
    `${minutesColumn(found.expectedChangeovers)}  changeovers expected`,
    `${percent(found.rightFinding)}  ${right}`,
    `${percent(found.wrongFix)}  ${wrong}`,
    `${percent(found.passedOn)}  ${neither}`,
    ...left.flatMap(([share, what]) => (share > 0 ? [`${percent(share)}  ${what}`] : [])),
  ];
}

function endTitle(tree: Tree, end: string): string {
  return end === 'pass-on' ? 'passed on' : `${end}: ${findingTitle(tree, end)}`;
}
