import { destination, own, type Step, type Tree } from '../../../trees/document/index.ts';
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
  if (path === undefined) return NONE;
  const known = recent.find((one) => one.symptom === symptom && leadsAlike(one, path, tree.findings));
  const steps = known?.steps ?? numbered(tree, symptom, path);
  // With the parts as they are now, the next question is answered by their identity.
  const latest = { symptom, path, findings: tree.findings, steps };
  recent = [latest, ...recent.filter((one) => one !== known)].slice(0, MOST_RECENT);
  return steps;
}

type Path = Tree['symptoms'][string];

/** A path whose steps have been numbered, and all that their numbers go by. */
interface Numbered {
  readonly symptom: string;
  readonly path: Path;
  readonly findings: Tree['findings'];
  readonly steps: readonly NumberedStep[];
}

const NONE: readonly NumberedStep[] = [];
/** The paths asked about last: an edit that leads nothing elsewhere leaves the numbers as they are, and the list of them the same. */
let recent: readonly Numbered[] = [];
const MOST_RECENT = 4;

function leadsAlike(one: Numbered, path: Path, findings: Tree['findings']): boolean {
  return (
    one.path.first === path.first &&
    samePaths(one.path.steps, path.steps) &&
    sameOnward(one.findings, findings)
  );
}

/** Have two paths the same steps in the same order, each leading to the same by the same order of branches? */
function samePaths(one: Path['steps'], other: Path['steps']): boolean {
  if (one === other) return true;
  const ids = Object.keys(one);
  const others = Object.keys(other);
  return (
    ids.length === others.length &&
    ids.every((id, place) => id === others[place] && sameLeads(one[id], other[id]))
  );
}

function sameLeads(one: Step | undefined, other: Step | undefined): boolean {
  if (one === other || one?.then === other?.then) return true;
  const [leads, others] = [one, other].map((step) => Object.values(step?.then ?? {}).map(({ go }) => go));
  return leads?.length === others?.length && leads?.every((go, place) => go === others?.[place]) === true;
}

function sameOnward(one: Tree['findings'], other: Tree['findings']): boolean {
  return (
    one === other ||
    [...Object.keys(one), ...Object.keys(other)].every(
      (id) => own(one, id)?.otherwise === own(other, id)?.otherwise,
    )
  );
}

function numbered(tree: Tree, symptom: string, path: Path): readonly NumberedStep[] {
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
