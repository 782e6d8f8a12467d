import type { Course, Lead } from './course.ts';
import { destination } from './destination.ts';
import type { Tree } from './tree.ts';

/** The steps (by index in the course) and findings that can be come to. */
export interface Reach {
  readonly steps: ReadonlySet<number>;
  readonly findings: ReadonlySet<string>;
}

/**
 * Everything that can be come to from `starts`, whatever the tests give: along branches, and from a finding whose
 * remedy does not mend along `otherwise`.
 */
export function reachOf(
  course: Course,
  starts: readonly Lead[],
  otherwise: (finding: string) => readonly Lead[],
): Reach {
  const steps = new Set<number>();
  const findings = new Set<string>();
  const waiting = [...starts];
  for (let lead = waiting.pop(); lead !== undefined; lead = waiting.pop()) {
    if (lead.kind === 'step' && !steps.has(lead.index)) {
      steps.add(lead.index);
      waiting.push(...(course.steps[lead.index]?.branches ?? []).map((branch) => branch.lead));
    }
    if (lead.kind === 'finding' && !findings.has(lead.finding)) {
      findings.add(lead.finding);
      waiting.push(...otherwise(lead.finding));
    }
  }
  return { steps, findings };
}

/** Where the findings of a tree go on when their remedy does not mend. */
export interface Otherwise {
  /** By finding. A bare step has a lead for each symptom that comes to the finding and has the step. */
  readonly leads: ReadonlyMap<string, readonly Lead[]>;
  /** By finding with a bare step that some path has: the symptoms whose path comes to the finding and has no such step. */
  readonly lacking: ReadonlyMap<string, readonly string[]>;
}

/** Looks up every `otherwise`. A bare step is one of the path of the symptom that the job came in with. */
export function otherwiseOf(tree: Tree, course: Course): Otherwise {
  const leads = new Map<string, Lead[]>();
  const bare = new Set<string>();
  for (const [finding, { otherwise }] of Object.entries(tree.findings)) {
    if (otherwise === undefined) continue;
    if (isBare(otherwise)) bare.add(finding);
    else leads.set(finding, [course.lead(otherwise, '')]);
  }
  const lacking = new Map<string, string[]>();
  for (const [symptom, { weights }] of bare.size === 0 ? [] : Object.entries(tree.symptoms)) {
    const lead = (finding: string): Lead => course.lead(tree.findings[finding]?.otherwise ?? '', symptom);
    const onPath = findingsOnPath(course, symptom, lead);
    for (const finding of bare) {
      const onward = lead(finding);
      const named = Object.hasOwn(weights, finding);
      if (onward.kind !== 'nowhere' && (named || onPath.has(finding))) append(leads, finding, onward);
      if (onward.kind === 'nowhere' && onPath.has(finding)) append(lacking, finding, symptom);
    }
  }
  return { leads, lacking };
}

function findingsOnPath(
  course: Course,
  symptom: string,
  otherwise: (finding: string) => Lead,
): ReadonlySet<string> {
  const first = course.firsts.get(symptom);
  if (first === undefined) return new Set();
  return reachOf(course, [{ kind: 'step', index: first }], (finding) => [otherwise(finding)]).findings;
}

function append<Item>(lists: Map<string, Item[]>, key: string, item: Item): void {
  lists.set(key, [...(lists.get(key) ?? []), item]);
}

function isBare(otherwise: string): boolean {
  const place = destination(otherwise, '');
  return place.kind === 'step' && place.symptom === '';
}
