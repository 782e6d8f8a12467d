import { destination, own, type Tree } from '../../../trees/document/index.ts';
import type { PathShape } from './protocol.ts';

/** Tests that a path is told by: more are not read in one sentence. */
const TESTS_TOLD = 4;

/** How many steps a symptom's path has, and the tests that it begins with, as long as each gives what a sound unit gives. */
export function shapeOf(tree: Tree, symptomId: string): PathShape {
  const symptom = own(tree.symptoms, symptomId);
  const tests: string[] = [];
  const passed = new Set<string>();
  let at = symptom?.first;
  while (at !== undefined && tests.length < TESTS_TOLD && !passed.has(at)) {
    passed.add(at);
    const step = own(symptom?.steps ?? {}, at);
    if (step === undefined) break;
    tests.push(step.test);
    const sound = Object.keys(own(tree.tests, step.test)?.results ?? {})[0] ?? '';
    const go = own(step.then, sound)?.go;
    const onward = go === undefined ? null : destination(go, symptomId);
    at = onward?.kind === 'step' && onward.symptom === symptomId ? onward.step : undefined;
  }
  return { steps: Object.keys(symptom?.steps ?? {}).length, tests };
}
