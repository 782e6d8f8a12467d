import { destination, own, type Tree } from '../../../trees/document/index.ts';
import type { DrawnBranch, DrawnNode, DrawnStep, Graph } from './graph.ts';
import { otherwiseStep } from './numbered-steps.ts';
import { findingAt, firstAt, placeOfGo, stepAt, symptomAt } from './places.ts';

/** The lines of a step’s branches. */
export type WaysOf = (step: DrawnStep) => readonly DrawnBranch[];

/**
 * Boxes and lines of a path from its drawn steps: what a branch leads to is a box from when it is first met, and has the shares of all
 * that arrive.
 */
export function assembled(
  tree: Tree,
  symptom: string,
  steps: readonly DrawnStep[],
  waysOf: WaysOf,
): Omit<Graph, 'node'> {
  const start = startOf(tree, symptom);
  const known = new Map<string, DrawnNode>([start, ...steps].map((node) => [node.id, node]));
  const arriving = new Map<string, number>();
  const branches: DrawnBranch[] = start.first === undefined ? [] : [startBranch(symptom, start, start.first)];
  for (const step of steps)
    for (const way of waysOf(step)) {
      const met = known.get(way.to);
      const node = met ?? leadTo(tree, symptom, goAt(step, way));
      if (node === undefined) continue;
      // What a branch leads to is put among the boxes when it is first met.
      if (met === undefined) known.set(way.to, node);
      branches.push(way);
      if (node.kind !== 'step') arriving.set(way.to, (arriving.get(way.to) ?? 0) + way.share);
    }
  branches.push(...otherwiseOf(tree, symptom, known, branches));
  return { symptom, nodes: [...known.values()].map((node) => withArrivals(node, arriving)), branches };
}

function startOf(tree: Tree, symptom: string): Extract<DrawnNode, { kind: 'start' }> {
  const path = own(tree.symptoms, symptom);
  const first = path?.first;
  return {
    kind: 'start',
    id: symptomAt(symptom),
    at: symptomAt(symptom),
    title: path?.title ?? symptom,
    ...(first !== undefined && own(path?.steps ?? {}, first) !== undefined ? { first } : {}),
  };
}

function startBranch(symptom: string, start: DrawnNode, first: string): DrawnBranch {
  const at = firstAt(symptom);
  const to = stepAt(symptom, first);
  const title = 'first step';
  return {
    kind: 'first',
    id: at,
    at,
    from: start.id,
    to,
    place: 0,
    title,
    share: 1,
    given: true,
    back: false,
  };
}

/** A step's ways out that are branches, whether or not there is what they lead to; the same again while the step is the same. */
export function keepWays(symptom: string): WaysOf {
  const made = new WeakMap<DrawnStep, readonly DrawnBranch[]>();
  return (step) => {
    const known = made.get(step);
    if (known !== undefined) return known;
    const ways = step.results.flatMap(({ at, result, title, go, share, given }, place): DrawnBranch[] => {
      if (go === undefined) return [];
      const to = placeOfGo(go, symptom);
      const line = { id: at, at, from: step.id, to, result, place, title, share, given };
      return [{ kind: 'result', ...line, back: false }];
    });
    made.set(step, ways);
    return ways;
  };
}

function goAt({ results }: DrawnStep, { place }: DrawnBranch): string {
  return results[place]?.go ?? '';
}

/** The lines from findings to the steps of this path where they go on otherwise. */
function otherwiseOf(
  tree: Tree,
  symptom: string,
  known: ReadonlyMap<string, DrawnNode>,
  branches: readonly DrawnBranch[],
): readonly DrawnBranch[] {
  const lines = [...known.values()].flatMap((node) =>
    node.kind === 'finding'
      ? otherwiseStep(tree, symptom, node.finding).map((step) => otherwiseLine(node, stepAt(symptom, step)))
      : [],
  );
  if (lines.length === 0) return lines;
  const led = new Set(branches.map(({ to }) => to));
  return lines.map((line) => ({ ...line, back: led.has(line.to) }));
}

function otherwiseLine({ id, at: finding }: DrawnNode, to: string): DrawnBranch {
  const at = `${finding}/otherwise`;
  const line = { id: at, at, from: id, to, place: 0, title: 'not mended', share: 0, given: true };
  return { kind: 'otherwise', ...line, back: false };
}

/** The box for a finding or for a place in another path; undefined where there is no such place. */
function leadTo(tree: Tree, symptom: string, go: string): DrawnNode | undefined {
  const lead = destination(go, symptom);
  if (lead.kind === 'finding') {
    const finding = own(tree.findings, lead.finding);
    if (finding === undefined) return undefined;
    const at = findingAt(lead.finding);
    const { title, remedy } = finding;
    return { kind: 'finding', id: at, at, finding: lead.finding, title, minutes: remedy.minutes, share: 0 };
  }
  const other = own(tree.symptoms, lead.symptom);
  const step = lead.kind === 'step' ? lead.step : other?.first;
  const there = own(other?.steps ?? {}, step ?? '');
  if (other === undefined || (lead.kind === 'step' && there === undefined)) return undefined;
  return {
    kind: 'elsewhere',
    id: placeOfGo(go, symptom),
    at: lead.kind === 'step' ? stepAt(lead.symptom, lead.step) : symptomAt(lead.symptom),
    symptom: lead.symptom,
    ...(lead.kind === 'step' ? { step: lead.step } : {}),
    title: other.title,
    testTitle: there === undefined ? '' : (own(tree.tests, there.test)?.title ?? there.test),
    share: 0,
  };
}

function withArrivals(node: DrawnNode, arriving: ReadonlyMap<string, number>): DrawnNode {
  const arrives = node.kind === 'finding' || node.kind === 'elsewhere';
  return arrives ? { ...node, share: arriving.get(node.id) ?? 0 } : node;
}
