import type { Course } from './course.ts';
import { dangersOf, saysLithium } from './danger.ts';
import type { Recall } from './memory.ts';
import { quote, warningAt, type Problem } from './problem.ts';
import type { Axis, Finding, Symptom, Test, Tree } from './tree.ts';

/** Somebody's hands at work: the words that say how, and the cautions that stand before just this. */
interface Act {
  readonly name: string;
  readonly at: readonly PropertyKey[];
  readonly words: readonly string[];
  readonly cautions: readonly string[];
}

/**
 * Tests, remedies and changeovers whose words touch mains, lithium cells or high voltage (by the word rules in `danger.ts`),
 * and which have no caution of their own. One on a changeover is read before the changeover, which may long be done, and
 * the tree's own are read once, so neither stands in for it.
 */
export function warnOfCautions(tree: Tree, course: Course, recall: Recall): readonly Problem[] {
  const isLithium = saysLithiumAnywhere(tree, course, recall);
  const ofPart = (id: string, part: object, acts: () => readonly Act[]): readonly Problem[] =>
    recall('cautions', part, [id, isLithium], () => acts().flatMap((act) => missingCautions(act, isLithium)));
  return [
    ...Object.entries(tree.tests).flatMap(([id, test]) => ofPart(id, test, () => [madeTest(id, test)])),
    ...Object.entries(tree.findings).flatMap(([id, finding]) =>
      ofPart(id, finding, () => [remedy(id, finding)]),
    ),
    ...Object.entries(tree.bench).flatMap(([id, axis]) => ofPart(id, axis, () => changeovers(id, axis))),
  ];
}

function saysLithiumAnywhere(
  { tests, findings, symptoms, ...rest }: Tree,
  { order }: Course,
  recall: Recall,
): boolean {
  const says = (part: object): boolean => recall('lithium', part, [], () => saysLithium(part));
  const symptomSays = (symptom: Symptom): boolean =>
    Object.entries(symptom).some(([key, part]) => key !== 'steps' && saysLithium(part));
  // The order stands for the steps and where they lead; what their branches weigh is no word.
  const stepsSay = (): boolean =>
    Object.values(symptoms).some(({ steps }) => Object.values(steps).some(says));
  return (
    saysLithium(rest) ||
    [tests, findings].some((parts) => Object.values(parts).some(says)) ||
    Object.values(symptoms).some((symptom) => recall('lithium', symptom, [], () => symptomSays(symptom))) ||
    recall('lithium', order, [], stepsSay)
  );
}

function missingCautions({ name, at, words, cautions }: Act, isLithium: boolean): readonly Problem[] {
  if (cautions.length > 0) return [];
  return dangersOf(words, isLithium).map((danger) =>
    warningAt(
      at,
      'missing-caution',
      `${name} touches ${danger}, and no caution of its own stands before it.`,
      'Say in its “cautions” what can hurt and how to keep clear of it.',
      [[...at, 'cautions']],
    ),
  );
}

function madeTest(id: string, { title, ask, results, cautions }: Test): Act {
  const words = [title, ask, ...Object.values(results).map((result) => result.title)];
  return { name: `The test ${quote(title)}`, at: ['tests', id], words, cautions };
}

function remedy(id: string, { title, remedy: { steps, parts, cautions } }: Finding): Act {
  const words = [title, ...steps, ...parts.map((part) => part.name)];
  return { name: `The remedy for ${quote(title)}`, at: ['findings', id, 'remedy'], words, cautions };
}

function changeovers(axis: string, { changes, states }: Axis): readonly Act[] {
  return changes.map(({ say, to, cautions }, index) => ({
    name: `The changeover to ${quote(states[to]?.title ?? to)}`,
    at: ['bench', axis, 'changes', index],
    words: [say],
    cautions,
  }));
}
