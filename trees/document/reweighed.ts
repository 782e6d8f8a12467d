import type { Course, CourseStep } from './course.ts';
import { haveSameIds } from './names.ts';
import type { Step, Symptom, Tree } from './tree.ts';

/**
 * The course of a tree whose paths are those of one laid out before but for the weights of branches; null where more differs. All
 * that the weights do not change is the former's by identity, the order too, so that what follows from where the branches lead can
 * be kept by it. For trees of the same findings, tests and results by id.
 */
export function reweighed(former: Course, were: Tree['symptoms'], now: Tree['symptoms']): Course | null {
  if (!haveSameIds(were, now)) return null;
  const steps: CourseStep[] = [];
  for (const id of Object.keys(now)) {
    const [was, is] = [were[id], now[id]];
    if (was === undefined || is === undefined || !isReweighed(steps, former, was, is)) return null;
  }
  return { ...former, steps };
}

/** Adds a symptom's steps as they are now; false where they differ in more than weights. */
function isReweighed(steps: CourseStep[], former: Course, was: Symptom, is: Symptom): boolean {
  if (was.first !== is.first) return false;
  const ids = Object.keys(is.steps);
  const same = was.steps === is.steps;
  const others = same ? ids : Object.keys(was.steps);
  if (ids.length !== others.length) return false;
  for (let at = 0; at < ids.length; at += 1) {
    const id = ids[at] ?? '';
    const known = former.steps[steps.length];
    if (id !== others[at] || known === undefined) return false;
    const [one, other] = same ? [] : [was.steps[id], is.steps[id]];
    if (one === other) steps.push(known);
    else if (one !== undefined && other !== undefined && haveSameLeads(one, other))
      steps.push(withShares(known, other));
    else return false;
  }
  return true;
}

/** Whether two steps differ in nothing but the weights of their branches. */
export function haveSameLeads(one: Step, other: Step): boolean {
  return (
    one.test === other.test &&
    haveSameIds(one.then, other.then) &&
    Object.entries(other.then).every(([result, { go }]) => one.then[result]?.go === go)
  );
}

function withShares(known: CourseStep, step: Step): CourseStep {
  const shares = sharesOf(step);
  return { ...known, branches: known.branches.map((branch, at) => ({ ...branch, share: shares[at] ?? 0 })) };
}

/** The share of a step's flow that leaves by each of its branches; 0 at all of them where the weights sum to nothing. */
export function sharesOf({ then }: Step): readonly number[] {
  const branches = Object.values(then);
  const total = branches.reduce((sum, { weight }) => sum + weight, 0);
  return branches.map(({ weight }) => (total > 0 ? weight / total : 0));
}
