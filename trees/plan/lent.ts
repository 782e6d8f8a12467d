import { destination, own, type Step, type Tree } from '../document/index.ts';
import type { Path } from './path.ts';

/**
 * A path with the steps it owes to findings: a bare `otherwise` names a step of the path of the job's own symptom, so a path
 * that comes to the finding must have one of that id. Where it has none, that of the first symptom that has is lent: the
 * same test, and on as it goes on there.
 */
export function withLent(tree: Tree, symptomId: string, path: Path): Path {
  const steps = new Map(Object.entries(path.steps));
  const passed = new Set<string>();
  const waiting: [go: string, symptom: string][] = [[path.first, symptomId]];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const [go, symptom] = next;
    const place = destination(go, symptom);
    const name = JSON.stringify(place);
    if (passed.has(name)) continue;
    passed.add(name);
    if (place.kind === 'symptom') {
      const first = place.symptom === symptomId ? path.first : own(tree.symptoms, place.symptom)?.first;
      if (first !== undefined) waiting.push([first, place.symptom]);
    } else if (place.kind === 'step') {
      const step = place.symptom === symptomId ? steps.get(place.step) : stepOf(tree, place);
      for (const branch of Object.values(step?.then ?? {})) waiting.push([branch.go, place.symptom]);
    } else {
      const otherwise = tree.findings[place.finding]?.otherwise;
      if (otherwise === undefined) continue;
      const lent = steps.has(otherwise) ? null : lentStep(tree, otherwise);
      if (lent !== null) steps.set(otherwise, lent);
      waiting.push([otherwise, symptomId]);
    }
  }
  return { first: path.first, steps: Object.fromEntries(steps) };
}

function stepOf(tree: Tree, { symptom, step }: { symptom: string; step: string }): Step | undefined {
  return own(own(tree.symptoms, symptom)?.steps ?? {}, step);
}

/** The step a bare `otherwise` names in the first path that has it, its ways on written from elsewhere; null for all others. */
function lentStep(tree: Tree, otherwise: string): Step | null {
  if (destination(otherwise, '').kind !== 'step') return null;
  const [lender, symptom] =
    Object.entries(tree.symptoms).find(([, { steps }]) => Object.hasOwn(steps, otherwise)) ?? [];
  const step = symptom?.steps[otherwise];
  if (lender === undefined || step === undefined) return null;
  const then = Object.entries(step.then).map(([result, branch]): [string, Step['then'][string]] => {
    const place = destination(branch.go, lender);
    const go = place.kind === 'step' ? `symptom:${place.symptom}/${place.step}` : branch.go;
    return [result, { ...branch, go }];
  });
  return { test: step.test, then: Object.fromEntries(then) };
}
