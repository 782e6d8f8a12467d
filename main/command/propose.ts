import { compileFaultModel, NO_HISTORY } from '../../trees/belief/index.ts';
import type { Tree } from '../../trees/document/index.ts';
import {
  documentWith,
  propose as proposed,
  type Evaluation,
  type Goal,
  type Move,
  type Proposal,
} from '../../trees/plan/index.ts';
import { treeAndSymptom } from './belief.ts';
import { text, type Asked, type Command } from './command.ts';
import { evaluationJson, figures } from './evaluate.ts';
import { closeness, titled } from './lines.ts';
import { isMemoryShort } from './memory.ts';
import { value, type Or, type Outcome } from './outcome.ts';
import { goalOf, methodOf, rateOf, secondsOf } from './planning.ts';
import { shopOf } from './shop.ts';
import { mayBeWritten, writtenWhole } from './write-whole.ts';

/** `propose FILE`: another order of tests for a symptom, as a document, beside what the tree costs as it is. */
export const propose: Command = {
  usage:
    'propose FILE --symptom ID --goal isolate|fix [--method exact|fast] [--rate N] [--seconds N] [--db FILE] ' +
    '[--out FILE] [--json]',
  says: 'a better order of tests for a symptom, or one where it has none, written to --out as a tree document',
  options: {
    symptom: { type: 'string' },
    goal: { type: 'string' },
    method: { type: 'string' },
    rate: { type: 'string' },
    seconds: { type: 'string' },
    db: { type: 'string' },
    out: { type: 'string' },
  },
  run: async (asked) => {
    const found = await proposal(asked);
    return found.ok ? found.value : found.outcome;
  },
};

async function proposal(asked: Asked): Promise<Or<Outcome>> {
  const method = methodOf(asked);
  if (!method.ok) return method;
  const seconds = secondsOf(asked);
  if (!seconds.ok) return seconds;
  const named = treeAndSymptom(asked, propose.usage);
  if (!named.ok) return named;
  const { file, tree, written, symptom } = named.value;
  const goal = goalOf(asked);
  if (!goal.ok) return goal;
  const rate = rateOf(asked);
  if (!rate.ok) return rate;
  const out = text(asked, 'out');
  const place = out === undefined ? value(null) : mayBeWritten(file, out);
  if (!place.ok) return place;
  const shop = await shopOf(text(asked, 'db'), tree.id);
  if (!shop.ok) return shop;
  const { history, hourlyRate } = shop.value;
  const end = performance.now() + seconds.value * 1000;
  const made = proposed({
    model: compileFaultModel(tree, history ?? NO_HISTORY),
    symptom,
    goal: goal.value,
    method: method.value,
    rate: rate.value ?? hourlyRate,
    isTimeUp: () => performance.now() >= end || isMemoryShort(),
  });
  const document = documentOf(written, made, symptom);
  const kept = out === undefined ? value(null) : writtenWhole(file, out, inFull(document));
  if (!kept.ok) return kept;
  const json = asJson(made, document);
  return value({
    status: 0,
    text: asText(tree, goal.value, made, out),
    json: out === undefined ? json : { ...json, out },
  });
}

type TreeDocument = Parameters<typeof documentWith>[0];

/** What was read, with the proposed path in it; all else as it was written. */
function documentOf(written: string, { tree, changed }: Proposal, symptom: string): TreeDocument {
  // The reader has held this text to the schema.
  const document = JSON.parse(written) as TreeDocument;
  return changed ? documentWith(document, tree, symptom) : document;
}

function inFull(document: TreeDocument): string {
  return `${JSON.stringify(document, null, 2)}\n`;
}

function asJson({ before, after, gap, moves, changed }: Proposal, document: TreeDocument) {
  return {
    before: before === null ? { expectedMinutes: null } : evaluationJson(before),
    after: evaluationJson(after),
    gap,
    document,
    moves,
    changed,
  };
}

function asText(tree: Tree, goal: Goal, { before, after, gap, moves, changed }: Proposal, out?: string) {
  const moved = moves.map((move) => moveLine(tree, move));
  return [
    changed ? '  before     after' : 'No better order was found; the tree stands as it is',
    ...sideBySide(goal, before, after),
    ...(moved.length === 0 ? [] : ['Minutes saved, by what is done', ...moved]),
    ...(gap === null ? [] : [`Exact: ${closeness(gap)}${WHICH[goal]}`]),
    ...(out === undefined ? [] : [`Wrote ${out}.`]),
  ].join('\n');
}

/** A tree holds tests up to one finding and its remedy: what a gap is taken against. */
const WHICH: Readonly<Record<Goal, string>> = {
  isolate: '',
  fix: ', of plans that end at their first remedy',
};

function sideBySide(goal: Goal, before: Evaluation | null, after: Evaluation): readonly string[] {
  const former = before === null ? [] : figures(goal, before);
  return figures(goal, after).map(({ shown, what }, at) => {
    const was = before === null ? '-' : (former[at]?.shown ?? '');
    return `${was.padStart(8)}  ${shown.padStart(8)}  ${what}`;
  });
}

/** A saving with its sign, and where the thing stands now among the tests and how often it is done. */
function moveLine(tree: Tree, { kind, id, saves, made, place }: Move): string {
  const [timesBefore, timesAfter] = made.map((times) => times.toFixed(2));
  const [placeBefore, placeAfter] = place.map((one) => one?.toFixed(1) ?? '-');
  const times = `${timesBefore} to ${timesAfter} times`;
  const places = kind === 'test' ? `, place ${placeBefore} to ${placeAfter}` : '';
  return `${saves.toFixed(2).padStart(8)}  ${titled(tree, kind, id)} (${times}${places})`;
}
