import type { Tree } from './tree.ts';

/**
 * Stand for what there is to be referred to, by id: each is the same object for as long as the ids are the same, so that what
 * is only about which entries there are can be remembered while their texts and numbers change.
 */
export interface Names {
  /** The tests and their results. */
  readonly tests: object;
  readonly findings: object;
  /** The symptoms, their steps, and whether they have a first step. */
  readonly symptoms: object;
}

/** Gives the names of one tree after another. */
export function openNames(): (tree: Tree) => Names {
  let tests: Tree['tests'] | undefined;
  let findings: Tree['findings'] | undefined;
  let symptoms: Tree['symptoms'] | undefined;
  return (tree) => {
    tests = keptIf(tests, tree.tests, haveSameResults);
    findings = keptIf(findings, tree.findings, haveSameIds);
    symptoms = keptIf(symptoms, tree.symptoms, haveSameSteps);
    return { tests, findings, symptoms };
  };
}

function keptIf<Part>(
  former: Part | undefined,
  now: Part,
  isSame: (former: Part, now: Part) => boolean,
): Part {
  return former !== undefined && (former === now || isSame(former, now)) ? former : now;
}

/** Whether two records have the same ids in the same order. */
export function haveSameIds(one: object, other: object): boolean {
  const ids = Object.keys(one);
  const others = Object.keys(other);
  return ids.length === others.length && ids.every((id, place) => id === others[place]);
}

/** Whether there are the same tests with the same results, by id and in the same order. */
export function haveSameResults(one: Tree['tests'], other: Tree['tests']): boolean {
  return (
    haveSameIds(one, other) &&
    Object.entries(other).every(([id, { results }]) => {
      const former = one[id]?.results ?? {};
      return former === results || haveSameIds(former, results);
    })
  );
}

function haveSameSteps(one: Tree['symptoms'], other: Tree['symptoms']): boolean {
  return (
    haveSameIds(one, other) &&
    Object.entries(other).every(([id, { first, steps }]) => {
      const former = one[id];
      return (
        former !== undefined &&
        (former.first === undefined) === (first === undefined) &&
        (former.steps === steps || haveSameIds(former.steps, steps))
      );
    })
  );
}
