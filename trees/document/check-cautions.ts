import { quote, warningAt, type Problem } from './problem.ts';
import type { Needs, Tree } from './tree.ts';

/**
 * Words that say the work touches what can hurt badly. An inverter is one for a lamp unless it is said to be a logic
 * gate; alkaline cells, low-voltage adapters and the like are not meant.
 */
const DANGERS: readonly { readonly words: RegExp; readonly danger: string }[] = [
  {
    words:
      /\bmains\b|\bline voltage\b|\bwall (?:socket|outlet)\b|\binside (?:of )?(?:the|an|its) adapt[eo]r\b|\bopen (?:up )?(?:the|an) adapt[eo]r\b/iu,
    danger: 'the mains',
  },
  { words: /\blithium\b|\bli-?ion\b|\bli-?po\b/iu, danger: 'a lithium cell' },
  {
    words:
      /\bcold[ -]cathode\b|\bccfl\b|\bhigh[ -]voltage\b|(?<!\b(?:logic|hex|clock|gate|signal|schmitt|bus)[ -])\binverters?\b/iu,
    danger: 'high voltage',
  },
];

/**
 * Tests, remedies and changeovers whose words touch mains, lithium cells or high voltage, and before which no caution
 * stands: neither their own nor one of the changeovers into a bench state they need. The tree's own cautions are
 * read once, not at the act, so they do not count.
 */
export function warnOfCautions(tree: Tree): readonly Problem[] {
  return [...testCautions(tree), ...remedyCautions(tree), ...changeCautions(tree)];
}

function testCautions(tree: Tree): readonly Problem[] {
  return Object.entries(tree.tests).flatMap(([id, { title, ask, needs, cautions }]) =>
    cautions.length > 0 || isCautioned(tree, needs)
      ? []
      : dangers([title, ask], `The test ${quote(title)}`, ['tests', id]),
  );
}

function remedyCautions(tree: Tree): readonly Problem[] {
  return Object.entries(tree.findings).flatMap(([id, { title, remedy }]) => {
    if (remedy.cautions.length > 0 || isCautioned(tree, remedy.needs)) return [];
    const words = [title, ...remedy.steps, ...remedy.parts.map(({ name }) => name)];
    return dangers(words, `The remedy for ${quote(title)}`, ['findings', id, 'remedy']);
  });
}

function changeCautions(tree: Tree): readonly Problem[] {
  return Object.entries(tree.bench).flatMap(([axis, { changes, states }]) =>
    changes.flatMap(({ say, to, cautions }, index) => {
      if (cautions.length > 0) return [];
      const name = quote(states[to]?.title ?? to);
      return dangers([say], `The changeover to ${name}`, ['bench', axis, 'changes', index]);
    }),
  );
}

function isCautioned(tree: Tree, needs: Needs): boolean {
  return Object.entries(needs).some(([axis, state]) =>
    (tree.bench[axis]?.changes ?? []).some(({ to, cautions }) => to === state && cautions.length > 0),
  );
}

function dangers(words: readonly string[], what: string, at: readonly PropertyKey[]): readonly Problem[] {
  return DANGERS.filter((rule) => words.some((text) => rule.words.test(text))).map(({ danger }) =>
    warningAt(
      at,
      'missing-caution',
      `${what} touches ${danger}, and no caution stands before it.`,
      'Say in “cautions” what can hurt and how to keep clear of it.',
    ),
  );
}
