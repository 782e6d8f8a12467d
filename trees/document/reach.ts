import type { Course, Lead } from './course.ts';

/** The steps (by index in the course) and findings that can be come to. */
export interface Reach {
  readonly steps: ReadonlySet<number>;
  readonly findings: ReadonlySet<string>;
}

/**
 * Everything that can be come to from `starts`, whatever the tests give: along branches, and from a finding whose
 * remedy does not mend along `otherwise` (a list, for findings whose way on depends on the symptom the job came in with).
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
