import { dangersOf, saysLithium } from './danger.ts';
import { quote, warningAt, type Problem } from './problem.ts';
import type { Tree } from './tree.ts';

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
export function warnOfCautions(tree: Tree): readonly Problem[] {
  const isLithium = saysLithium(tree);
  return actsOf(tree)
    .filter(({ cautions }) => cautions.length === 0)
    .flatMap(({ name, at, words }) =>
      dangersOf(words, isLithium).map((danger) =>
        warningAt(
          at,
          'missing-caution',
          `${name} touches ${danger}, and no caution of its own stands before it.`,
          'Say in its “cautions” what can hurt and how to keep clear of it.',
          [[...at, 'cautions']],
        ),
      ),
    );
}

function actsOf(tree: Tree): readonly Act[] {
  const tests = Object.entries(tree.tests).map(([id, { title, ask, results, cautions }]) => ({
    name: `The test ${quote(title)}`,
    at: ['tests', id],
    words: [title, ask, ...Object.values(results).map((result) => result.title)],
    cautions,
  }));
  const remedies = Object.entries(tree.findings).map(([id, { title, remedy }]) => ({
    name: `The remedy for ${quote(title)}`,
    at: ['findings', id, 'remedy'],
    words: [title, ...remedy.steps, ...remedy.parts.map((part) => part.name)],
    cautions: remedy.cautions,
  }));
  return [...tests, ...remedies, ...changeovers(tree)];
}

function changeovers(tree: Tree): readonly Act[] {
  return Object.entries(tree.bench).flatMap(([axis, { changes, states }]) =>
    changes.map(({ say, to, cautions }, index) => ({
      name: `The changeover to ${quote(states[to]?.title ?? to)}`,
      at: ['bench', axis, 'changes', index],
      words: [say],
      cautions,
    })),
  );
}
