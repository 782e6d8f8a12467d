import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import { firstSituation, type Answer, type JobState } from '../../trees/chart/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import { planFast, type Plan, type PlannedAct, type PlanQuestion } from '../../trees/plan/index.ts';
import { treeAndSymptom } from './belief.ts';
import { readBench, unbarred } from './bench-at.ts';
import { text, texts, type Asked, type Command } from './command.ts';
import { readGiven, type Given } from './given.ts';
import { closeness, minutesColumn, titled } from './lines.ts';
import { value, type Or, type Outcome } from './outcome.ts';
import { goalOf, methodOf, rateOf, secondsOf } from './planning.ts';
import { searchWithin } from './search-within.ts';
import { shopOf } from './shop.ts';

/** `plan FILE`: what can be done next and the expected minutes that each comes to, best first. */
export const plan: Command = {
  usage:
    'plan FILE --symptom ID --goal isolate|fix [--given TEST=RESULT|TEST=READING]… [--at AXIS=STATE]… ' +
    '[--method exact|fast] [--rate N] [--seconds N] [--db FILE] [--json]',
  says: 'what to do next, best first, and the expected minutes in all; an exact search ends after --seconds (60) or at Ctrl+C',
  options: {
    symptom: { type: 'string' },
    goal: { type: 'string' },
    given: { type: 'string', multiple: true },
    at: { type: 'string', multiple: true },
    method: { type: 'string' },
    rate: { type: 'string' },
    seconds: { type: 'string' },
    db: { type: 'string' },
  },
  run: async (asked) => {
    const found = await planned(asked);
    return found.ok ? found.value : found.outcome;
  },
};

async function planned(asked: Asked): Promise<Or<Outcome>> {
  const method = methodOf(asked);
  if (!method.ok) return method;
  const seconds = secondsOf(asked);
  if (!seconds.ok) return seconds;
  const question = await questionOf(asked);
  if (!question.ok) return question;
  const made =
    method.value === 'fast' ? planFast(question.value) : await searchWithin(question.value, seconds.value);
  return value(outcomeOf(question.value.model.tree, withoutTrace(made)));
}

/** The planner's question for a job in which the given tests have been made and no remedy has been tried. */
async function questionOf(asked: Asked): Promise<Or<PlanQuestion>> {
  const named = treeAndSymptom(asked, plan.usage);
  if (!named.ok) return named;
  const { tree, symptom } = named.value;
  const goal = goalOf(asked);
  if (!goal.ok) return goal;
  const rate = rateOf(asked);
  if (!rate.ok) return rate;
  const stands = readBench(tree, symptom, texts(asked, 'at'));
  if (!stands.ok) return stands;
  const shop = await shopOf(text(asked, 'db'), tree.id);
  if (!shop.ok) return shop;
  const { history, accuracies, hourlyRate } = shop.value;
  const given = readGiven(tree, texts(asked, 'given'), accuracies);
  if (!given.ok) return given;
  const job: JobState = { ...firstSituation(tree, symptom).job, answers: given.value.map(answerOf) };
  const bench = unbarred(tree, job, stands.value);
  if (!bench.ok) return bench;
  const model = compileFaultModel(tree, history ?? NO_HISTORY);
  return value({ model, goal: goal.value, job, bench: bench.value, rate: rate.value ?? hourlyRate });
}

function answerOf(given: Given): Answer {
  return { ...given, era: 0 };
}

/** Sums in another order differ in their last digits: a gap no wider than that is none. */
function withoutTrace(made: Plan): Plan {
  return made.gap <= 1e-9 * Math.max(1, made.expectedTotal) ? { ...made, gap: 0 } : made;
}

function outcomeOf(tree: Tree, { actions, expectedTotal, method, gap }: Plan): Outcome {
  const rows = actions.map((act) => rowOf(tree, act));
  const table =
    rows.length === 0 ? ['No test is left that is worth making to know more.'] : [HEADING, ...rows];
  const last = `${expectedTotal.toFixed(1)} minutes expected in all, ${method}: ${closeness(gap)}`;
  return {
    status: 0,
    text: [...table, last].join('\n'),
    json: { actions, expectedTotal, method, gap },
  };
}

const HEADING = 'minutes    in all  what to do next, best first';

function rowOf(tree: Tree, { kind, id, minutes, expectedTotal }: PlannedAct): string {
  return `${minutesColumn(minutes)}  ${minutesColumn(expectedTotal, 8)}  ${titled(tree, kind, id)}`;
}
