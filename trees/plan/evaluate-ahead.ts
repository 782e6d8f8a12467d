import type { Layout, Lead } from './evaluate-layout.ts';
import { mark, markAll, noMarks, type Marks } from './evaluate-marks.ts';

/** What may still come from a step on, also where a remedy does not mend and leads on. */
export interface Ahead {
  /** Tests that a step asks. */
  readonly tests: Marks;
  /** Findings that a branch leads to. */
  readonly findings: Marks;
}

/** By step what is ahead of it, itself included; and of all steps that the path can come to. */
export function aheadOf(layout: Layout): { readonly steps: readonly Ahead[]; readonly all: Ahead } {
  const { steps, tests, findings } = layout;
  const none = (): Ahead => ({ tests: noMarks(tests.length), findings: noMarks(findings.length) });
  const ahead = steps.map(none);
  const onwardLast = layout.order.toReversed();
  // A finding may lead back to a step before it, so the marks are handed back until no more come.
  for (let more = true; more;) {
    more = false;
    for (const index of onwardLast) {
      const here = ahead[index];
      const { test = 0, leads = [] } = steps[index] ?? {};
      if (here === undefined) continue;
      mark(here.tests, test);
      for (const lead of leads) more = addLead(layout, ahead, here, lead) || more;
    }
  }
  const all = none();
  addLead(layout, ahead, all, layout.first);
  return { steps: ahead, all };
}

/** Whether anything was new. */
function addLead(layout: Layout, ahead: readonly Ahead[], into: Ahead, lead: Lead): boolean {
  if (lead.kind === 'step') return addAll(into, ahead[lead.index]);
  if (lead.kind === 'nowhere') return false;
  const finding = layout.findingNumber.get(lead.finding) ?? 0;
  const isNew = mark(into.findings, finding);
  const otherwise = layout.findings[finding]?.otherwise;
  const on = otherwise?.kind === 'step' && addAll(into, ahead[otherwise.index]);
  if (otherwise?.kind !== 'finding' || !isNew) return isNew || on;
  addLead(layout, ahead, into, otherwise);
  return true;
}

function addAll(into: Ahead, from: Ahead | undefined): boolean {
  if (from === undefined) return false;
  const tests = markAll(into.tests, from.tests);
  return markAll(into.findings, from.findings) || tests;
}
