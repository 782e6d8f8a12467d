import { destination, own, type Step, type Tree } from '../../../trees/document/index.ts';

export interface NumberedStep {
  readonly step: string;
  readonly number: number;
  /** Can it be come to from where the path starts, by this path's own branches? */
  readonly reached: boolean;
}

/**
 * A path's steps numbered from 1: those that can be come to from the start first, each before those it leads to
 * (except on a loop, which a draft may have), then the others in the same manner. Of two ways to go on, results listed
 * earlier are numbered first.
 */
export function numberedSteps(tree: Tree, symptom: string): readonly NumberedStep[] {
  const path = own(tree.symptoms, symptom);
  if (path === undefined) return [];
  const next = leadsOf(path.steps, symptom);
  const reached = path.first !== undefined && next.has(path.first) ? onwardFrom([path.first], next) : [];
  const others = onwardFrom([...next.keys()], next, new Set(reached));
  return [...reached, ...others].map((step, index) => ({
    step,
    number: index + 1,
    reached: index < reached.length,
  }));
}

/** By step, the steps of the same path that its branches lead to. */
function leadsOf(
  steps: Readonly<Record<string, Step>>,
  symptom: string,
): ReadonlyMap<string, readonly string[]> {
  return new Map(
    Object.entries(steps).map(([id, { then }]) => [
      id,
      Object.values(then).flatMap(({ go }) => {
        const lead = destination(go, symptom);
        const here = lead.kind === 'step' && lead.symptom === symptom && Object.hasOwn(steps, lead.step);
        return here ? [lead.step] : [];
      }),
    ]),
  );
}

/** Depth first without recursion, as paths can be thousands of steps deep; turned round, each comes before what it leads to. */
function onwardFrom(
  roots: readonly string[],
  next: ReadonlyMap<string, readonly string[]>,
  met = new Set<string>(),
): readonly string[] {
  const left: string[] = [];
  for (const root of roots.toReversed()) {
    if (met.has(root)) continue;
    met.add(root);
    const stack = [{ step: root, waiting: [...(next.get(root) ?? [])] }];
    for (let top = stack.at(-1); top !== undefined; top = stack.at(-1)) {
      const onward = top.waiting.pop();
      if (onward === undefined) {
        left.push(top.step);
        stack.pop();
      } else if (!met.has(onward)) {
        met.add(onward);
        stack.push({ step: onward, waiting: [...(next.get(onward) ?? [])] });
      }
    }
  }
  return left.reverse();
}
