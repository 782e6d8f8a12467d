import { destination, own, type Tree } from '../../../trees/document/index.ts';
import { onwardFrom } from './onward.ts';

export interface NumberedStep {
  readonly step: string;
  readonly number: number;
  /** Can it be come to from where the path starts, by this path's own branches or where a finding goes on otherwise? */
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
  const leads = leadsOf(tree, symptom);
  const branches = (step: string): readonly string[] => leads.get(step)?.branches ?? [];
  const roots = path.first !== undefined && leads.has(path.first) ? [path.first] : [];
  // Most findings go on otherwise at a step that came before them; only where it is come to in no other way is that onward.
  const byBranch = new Set(onwardFrom(roots, branches));
  const onward = (step: string): readonly string[] => [
    ...branches(step),
    ...(leads.get(step)?.otherwise ?? []).filter((to) => !byBranch.has(to)),
  ];
  const reached = onwardFrom(roots, onward);
  const others = onwardFrom([...leads.keys()], branches, new Set(reached));
  return [...reached, ...others].map((step, index) => ({
    step,
    number: index + 1,
    reached: index < reached.length,
  }));
}

interface Leads {
  readonly branches: readonly string[];
  readonly otherwise: readonly string[];
}

/** By step, the steps of the same path that its branches lead to, and those where the findings it leads to go on otherwise. */
function leadsOf(tree: Tree, symptom: string): ReadonlyMap<string, Leads> {
  const steps = own(tree.symptoms, symptom)?.steps ?? {};
  return new Map(
    Object.entries(steps).map(([id, { then }]) => {
      const branches: string[] = [];
      const otherwise: string[] = [];
      for (const { go } of Object.values(then)) {
        const lead = destination(go, symptom);
        if (lead.kind === 'finding') otherwise.push(...otherwiseStep(tree, symptom, lead.finding));
        else branches.push(...stepHere(tree, symptom, go));
      }
      return [id, { branches, otherwise }];
    }),
  );
}

/** The step of this symptom's path at which a finding goes on when its remedy does not mend; none where there is no such. */
export function otherwiseStep(tree: Tree, symptom: string, finding: string): readonly string[] {
  return stepHere(tree, symptom, own(tree.findings, finding)?.otherwise ?? '');
}

function stepHere(tree: Tree, symptom: string, go: string): readonly string[] {
  const lead = destination(go, symptom);
  const here = lead.kind === 'step' && lead.symptom === symptom;
  return here && Object.hasOwn(own(tree.symptoms, symptom)?.steps ?? {}, lead.step) ? [lead.step] : [];
}
