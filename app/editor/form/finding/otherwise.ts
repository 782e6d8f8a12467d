import { destination, own, type Tree } from '../../../../trees/document/index.ts';
import type { SearchLine } from '../../../parts/index.ts';
import { goWords, numbersOf, titled } from '../../desk/part-words.ts';
import { pointerOfGo } from '../words/uses.ts';

/** Where a job goes on after a remedy that did not mend the unit, as a link. */
export interface Onward {
  readonly at: string | null;
  readonly words: string;
}

/**
 * An `otherwise` in words. A bare step is one of the path that the job came in by, so there may be several of that id, or none.
 */
export function onwardOf(tree: Tree, go: string): readonly Onward[] {
  const place = destination(go, '');
  if (place.kind !== 'step' || place.symptom !== '')
    return [{ at: pointerOfGo(go, ''), words: goWords(tree, '', go) }];
  const found = Object.keys(tree.symptoms).filter((symptom) => own(stepsOf(tree, symptom), go) !== undefined);
  if (found.length === 0) return [{ at: null, words: `step ${go}, which no path has` }];
  return found.map((symptom) => ({
    at: pointerOfGo(go, symptom),
    words: `${goWords(tree, symptom, go)} of ${titled(own(tree.symptoms, symptom)?.title)}`,
  }));
}

/** Everywhere that a job can go on: other findings, paths, and their steps. */
export function onwardLines(tree: Tree, finding: string): readonly SearchLine[] {
  const findings = Object.entries(tree.findings).flatMap(([id, { title }]) =>
    id === finding ? [] : [{ id: `finding:${id}`, title: titled(title), notes: ['finding'] }],
  );
  const paths = Object.entries(tree.symptoms).map(([id, { title }]) => ({
    id: `symptom:${id}`,
    title: titled(title),
    notes: ['its path'],
  }));
  const steps = Object.entries(tree.symptoms).flatMap(([symptom, { title }]) =>
    [...numbersOf(tree, symptom)].map(([step, number]) => ({
      id: `symptom:${symptom}/${step}`,
      title: titled(own(tree.tests, stepsOf(tree, symptom)[step]?.test ?? '')?.title),
      notes: [titled(title), `step ${String(number)}`],
    })),
  );
  return [...findings, ...steps, ...paths];
}

function stepsOf(tree: Tree, symptom: string): Tree['symptoms'][string]['steps'] {
  return own(tree.symptoms, symptom)?.steps ?? {};
}
