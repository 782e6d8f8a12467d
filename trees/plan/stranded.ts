import { destination, reachedSteps, type Symptom, type Tree } from '../document/index.ts';

/**
 * The steps of a symptom's path that nothing comes to in a changed tree, and that something came to in the former one, or that are
 * new. Left out is what is still named by something that stays: another symptom's branch, a finding's `otherwise`, or a step that
 * nothing came to before either.
 */
export function strandedSteps(former: Tree, changed: Tree, symptomId: string): ReadonlySet<string> {
  const reached = reachedSteps(changed, symptomId);
  const steps = changed.symptoms[symptomId]?.steps ?? {};
  if (Object.keys(steps).every((id) => reached.has(id))) return new Set();
  const before = reachedSteps(former, symptomId);
  const had = former.symptoms[symptomId]?.steps ?? {};
  const isLeft = (id: string): boolean => reached.has(id) || (Object.hasOwn(had, id) && !before.has(id));
  const kept = new Set([...Object.keys(steps).filter(isLeft), ...ledToFromElsewhere(changed, symptomId)]);
  for (const id of kept) for (const next of onwardOf(steps, id, symptomId)) kept.add(next);
  return new Set(Object.keys(steps).filter((id) => !kept.has(id)));
}

/** Steps of the symptom's path that others' branches or findings name. */
export function ledToFromElsewhere(tree: Tree, symptomId: string): readonly string[] {
  const others = Object.entries(tree.symptoms).flatMap(([id, { steps }]) =>
    id === symptomId
      ? []
      : Object.values(steps).flatMap(({ then }) => Object.values(then).map(({ go }) => go)),
  );
  const named = others.flatMap((go) => (go.startsWith('symptom:') ? stepsIn(go, symptomId) : []));
  const otherwise = Object.values(tree.findings).flatMap((finding) =>
    finding.otherwise === undefined ? [] : stepsIn(finding.otherwise, symptomId),
  );
  return [...named, ...otherwise];
}

/** The step of this path that a `go` written in it names; none where it names something else. */
export function stepsIn(go: string, symptomId: string): readonly string[] {
  const place = destination(go, symptomId);
  return place.kind === 'step' && place.symptom === symptomId ? [place.step] : [];
}

/** The steps that the branches of a step lead to in its own path. */
export function onwardOf(steps: Symptom['steps'], id: string, symptomId: string): readonly string[] {
  const then = Object.hasOwn(steps, id) ? (steps[id]?.then ?? {}) : {};
  return Object.values(then).flatMap(({ go }) => stepsIn(go, symptomId));
}
