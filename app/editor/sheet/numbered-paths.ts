import { destination, own, type Tree } from '../../../trees/document/index.ts';

/** A symptom's path as it is numbered on paper. */
export interface NumberedPath {
  readonly symptom: string;
  readonly letter: string;
  /** The number of each step, in reading order. */
  readonly steps: ReadonlyMap<string, number>;
  /** Some of the steps are ones that nothing on the path leads to; they come last. */
  readonly unreached: boolean;
}

/**
 * Numbers each symptom's own steps from 1 on, so that a step stands before all it leads to and the way by the first results reads
 * straight on. Steps that nothing leads to come last. Takes drafts as well: a loop is numbered as it is come to.
 */
export function numberedPaths(tree: Tree): readonly NumberedPath[] {
  return Object.entries(tree.symptoms).map(([symptom, { first, steps }], at) => {
    const seen = new Set<string>();
    const reached = onward(symptom, steps, first === undefined ? [] : [first], seen);
    const entered = onward(symptom, steps, enteredFrom(tree, symptom), seen);
    const rest = onward(symptom, steps, Object.keys(steps), seen);
    const order = [...reached, ...entered, ...rest];
    return {
      symptom,
      letter: letterOf(at),
      steps: new Map(order.map((step, index) => [step, index + 1])),
      unreached: first !== undefined && rest.length > 0,
    };
  });
}

type Steps = Tree['symptoms'][string]['steps'];

/** Depth first, each step laid before those found after it: the reverse of the order in which they are left. */
function onward(
  symptom: string,
  steps: Steps,
  starts: readonly string[],
  seen: Set<string>,
): readonly string[] {
  const left: string[] = [];
  const open: { readonly step: string; readonly next: string[] }[] = [];
  const enter = (step: string): void => {
    if (seen.has(step) || !Object.hasOwn(steps, step)) return;
    seen.add(step);
    open.push({ step, next: leadsTo(symptom, steps, step) });
  };
  for (const start of starts.toReversed()) {
    enter(start);
    for (let top = open.at(-1); top !== undefined; top = open.at(-1)) {
      const next = top.next.pop();
      if (next !== undefined) enter(next);
      else left.push(open.pop()?.step ?? '');
    }
  }
  return left.reverse();
}

function leadsTo(symptom: string, steps: Steps, step: string): string[] {
  return Object.values(own(steps, step)?.then ?? {}).flatMap(({ go }) => {
    const place = destination(go, symptom);
    return place.kind === 'step' && place.symptom === symptom ? [place.step] : [];
  });
}

/** Steps of a symptom that other paths, or findings whose remedy did not mend the unit, lead to. */
function enteredFrom(tree: Tree, symptom: string): readonly string[] {
  const branches = Object.entries(tree.symptoms).flatMap(([other, { steps }]) =>
    Object.values(steps).flatMap(({ then }) => Object.values(then).map(({ go }) => destination(go, other))),
  );
  const otherwise = Object.values(tree.findings).flatMap((finding) =>
    finding.otherwise === undefined ? [] : [destination(finding.otherwise, symptom)],
  );
  return [...branches, ...otherwise].flatMap((place) =>
    place.kind === 'step' && place.symptom === symptom ? [place.step] : [],
  );
}

/** A, B … Z, AA, AB … */
function letterOf(at: number): string {
  const letter = String.fromCharCode(65 + (at % 26));
  return at < 26 ? letter : `${letterOf(Math.floor(at / 26) - 1)}${letter}`;
}
