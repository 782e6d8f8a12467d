import { destination, own, type Tree } from '../../../../trees/document/index.ts';
import { numbersOf, titled } from '../../desk/part-words.ts';

/** A part of the tree, by pointer, and what a link to it says. */
export interface Place {
  readonly at: string;
  readonly words: string;
}

/** Where a test is used, besides the ratios of other tests’ bands. */
export interface TestUses {
  readonly steps: readonly Place[];
  readonly expecting: readonly Place[];
  readonly proving: readonly Place[];
  readonly disturbing: readonly Place[];
  readonly interlocks: readonly Place[];
}

/** The places of a tree that name a test. */
export function usesOf(tree: Tree, test: string): TestUses {
  const findings = Object.entries(tree.findings).map(([id, finding]) => ({
    finding,
    place: { at: `/findings/${id}`, words: titled(finding.title) },
  }));
  const where = (is: (finding: Tree['findings'][string]) => boolean): readonly Place[] =>
    findings.flatMap(({ finding, place }) => (is(finding) ? [place] : []));
  return {
    steps: stepsWith(tree, test),
    expecting: where(({ expects }) => Object.hasOwn(expects, test)),
    proving: where(({ prove }) => prove.includes(test)),
    disturbing: where(({ remedy }) => remedy.disturbs.includes(test)),
    interlocks: tree.interlocks.flatMap((interlock, index) =>
      Object.hasOwn(interlock.until, test)
        ? [{ at: `/interlocks/${String(index)}`, words: interlockWords(tree, interlock) }]
        : [],
    ),
  };
}

/** The steps that make a test, path by path in the order of their numbers. */
export function stepsWith(tree: Tree, test: string): readonly Place[] {
  return Object.entries(tree.symptoms).flatMap(([symptom, { title, steps }]) => {
    if (!Object.values(steps).some((step) => step.test === test)) return [];
    return [...numbersOf(tree, symptom)].flatMap(([step, number]) =>
      own(steps, step)?.test === test
        ? [{ at: `/symptoms/${symptom}/steps/${step}`, words: `${titled(title)}, step ${String(number)}` }]
        : [],
    );
  });
}

/** What an interlock bars, in words: `Power: On, current limit set`. */
export function interlockWords(tree: Tree, interlock: Tree['interlocks'][number]): string {
  return Object.entries(interlock.change)
    .map(([axis, state]) => {
      const known = own(tree.bench, axis);
      return `${known?.title ?? axis}: ${own(known?.states ?? {}, state)?.title ?? state}`;
    })
    .join(', ');
}

/** The branches that lead to a finding or a step, each at its pointer. */
export function branchesTo(tree: Tree, to: string): readonly Place[] {
  // What leads there ends with its id; most branches of a large tree do not, and are left after a look at that.
  const id = to.slice(to.lastIndexOf('/') + 1);
  const found: Place[] = [];
  for (const [symptom, { title, steps }] of Object.entries(tree.symptoms))
    for (const [step, { test, then }] of Object.entries(steps))
      for (const [result, { go }] of Object.entries(then)) {
        if (!go.endsWith(id) || pointerOfGo(go, symptom) !== to) continue;
        const outcome = titled(own(own(tree.tests, test)?.results ?? {}, result)?.title);
        const number = String(numbersOf(tree, symptom).get(step));
        const at = `/symptoms/${symptom}/steps/${step}/then/${result}`;
        found.push({ at, words: `${titled(title)}, step ${number}: ${outcome}` });
      }
  return found;
}

/** The pointer of the place that a `go` written in a symptom’s path names, there or not. */
export function pointerOfGo(go: string, symptom: string): string {
  const lead = destination(go, symptom);
  if (lead.kind === 'finding') return `/findings/${lead.finding}`;
  const path = `/symptoms/${lead.symptom}`;
  return lead.kind === 'symptom' ? path : `${path}/steps/${lead.step}`;
}

/** The interlocks that bar a changeover of an axis. */
export function interlocksOn(tree: Tree, axis: string): readonly Place[] {
  return tree.interlocks.flatMap((interlock, index) =>
    Object.hasOwn(interlock.change, axis)
      ? [{ at: `/interlocks/${String(index)}`, words: interlockWords(tree, interlock) }]
      : [],
  );
}
