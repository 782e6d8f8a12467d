import { compileFaultModel, type FaultModel } from '../../../trees/belief/index.ts';
import { checkTree, own, type Step, type Tree } from '../../../trees/document/index.ts';
import { liveTree, pathChanges, type DraftDocument } from '../../../trees/edit/index.ts';
import {
  evaluate,
  goneWith,
  partsOf,
  propose,
  withParts,
  type Evaluation,
  type ProposedPart,
} from '../../../trees/plan/index.ts';
import { shapeOf } from './path-shape.ts';
import type { FromProposer, PathCost, ProposalQuestion, ShownPart, ToProposer } from './protocol.ts';

/** A question answered, kept for what is asked of its parts. */
interface Answered {
  readonly question: ProposalQuestion;
  readonly document: DraftDocument;
  readonly model: FaultModel;
  readonly proposed: Tree;
}

/** Answers what the window asks the proposer's thread, message by message. `now` gives milliseconds. */
export function openProposing(now: () => number): (message: ToProposer) => FromProposer {
  let answered: Answered | null = null;
  return (message) => {
    try {
      if (message.kind === 'take') {
        if (answered === null) throw new Error('nothing-proposed: a part is asked about before a proposal');
        return taken(answered, message.number, message.taken);
      }
      const { answer, kept } = proposedFor(message.question, now);
      answered = kept;
      return answer;
    } catch (error) {
      return { kind: 'failed', message: error instanceof Error ? error.message : String(error) };
    }
  };
}

function proposedFor(
  question: ProposalQuestion,
  now: () => number,
): { readonly answer: FromProposer; readonly kept: Answered } {
  const { text, figures, symptom, goal, method, within } = question;
  const document = JSON.parse(text) as DraftDocument;
  const { tree } = liveTree(document);
  if (checkTree(tree).some(({ severity }) => severity === 'error'))
    throw new Error('the tree has errors that keep it from being walked');
  const model = compileFaultModel(tree, figures.history);
  const end = now() + within;
  const isTimeUp = (): boolean => now() > end;
  const proposal = propose({ model, symptom, goal, method, rate: figures.rate, isTimeUp });
  const { changed, before, after, gap, moves } = proposal;
  const parts = changed ? partsOf(tree, proposal.tree, symptom) : [];
  const answer: FromProposer = {
    kind: 'proposed',
    changed,
    before: before === null ? null : costOf(before),
    after: changed ? costAsWritten(question, proposal.tree) : costOf(after),
    gap,
    shape: { before: shapeOf(tree, symptom), after: shapeOf(proposal.tree, symptom) },
    moves,
    parts: parts.map((part) => shownPart(tree, proposal.tree, symptom, part)),
    newSteps: newSteps(tree, proposal.tree, symptom),
  };
  return { answer, kept: { question, document, model, proposed: proposal.tree } };
}

function taken(
  { question, document, model, proposed }: Answered,
  number: number,
  parts: readonly string[],
): FromProposer {
  const { symptom } = question;
  const tree = withParts(model.tree, proposed, symptom, parts);
  if (tree === null) return { kind: 'taken', number, made: null };
  const cost = costAsWritten(question, tree);
  const gone = goneWith(model.tree, tree, symptom, parts);
  const changes = pathChanges(document, tree, symptom);
  return { kind: 'taken', number, made: { cost, shape: shapeOf(tree, symptom), gone, changes } };
}

/** What a path costs by its tree's own fault model, as it will once it is taken: what is written out with it is written in few digits. */
function costAsWritten({ figures, symptom, goal }: ProposalQuestion, tree: Tree): PathCost {
  const model = compileFaultModel(tree, figures.history);
  return costOf(evaluate({ model, tree, symptom, goal, rate: figures.rate }));
}

function costOf({ expectedMinutes, rightFinding }: Evaluation): PathCost {
  return { minutes: expectedMinutes, right: rightFinding };
}

function shownPart(tree: Tree, proposed: Tree, symptomId: string, part: ProposedPart): ShownPart {
  const [former, now] = [tree, proposed].map((one) => own(one.symptoms, symptomId));
  if (part.step === null)
    return { ...part, first: [former?.first ?? null, now?.first ?? ''], test: null, branches: [] };
  const [before, after] = [former, now].map((path) => own(path?.steps ?? {}, part.step ?? ''));
  const isOther = before !== undefined && after !== undefined && before.test !== after.test;
  const test = isOther ? ([before.test, after.test] as const) : null;
  return { ...part, first: null, test, branches: otherBranches(before, after) };
}

function otherBranches(before: Step | undefined, after: Step | undefined): ShownPart['branches'] {
  const results = new Set([...Object.keys(before?.then ?? {}), ...Object.keys(after?.then ?? {})]);
  return [...results].flatMap((result) => {
    const [was, is] = [before, after].map((step) => own(step?.then ?? {}, result)?.go ?? null);
    return was === is ? [] : [{ result, before: was ?? null, after: is ?? null }];
  });
}

function newSteps(tree: Tree, proposed: Tree, symptom: string): readonly (readonly [string, string])[] {
  const former = own(tree.symptoms, symptom)?.steps ?? {};
  const now = own(proposed.symptoms, symptom)?.steps ?? {};
  return Object.entries(now).flatMap(([id, { test }]) =>
    Object.hasOwn(former, id) ? [] : [[id, test] as const],
  );
}
