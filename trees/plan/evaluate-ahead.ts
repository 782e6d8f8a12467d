import type { Layout, Lead } from './evaluate-layout.ts';

/** What may still come from a step on, one mark a test or a finding, also where a remedy does not mend and leads on. */
export interface Ahead {
  /** 1 where a step asks the test. */
  readonly tests: Uint8Array;
  /** 1 where a branch leads to the finding. */
  readonly findings: Uint8Array;
}

/** By step what is ahead of it, itself included; and of all steps that the path can come to. */
export function aheadOf(layout: Layout): { readonly steps: readonly Ahead[]; readonly all: Ahead } {
  const { steps, tests, findings } = layout;
  const none = (): Ahead => ({
    tests: new Uint8Array(tests.length),
    findings: new Uint8Array(findings.length),
  });
  const ahead = steps.map(none);
  // A finding may lead back to a step before it, so the marks are handed back until no more come.
  for (let more = true; more;) {
    more = false;
    for (const index of layout.order.toReversed()) {
      const here = ahead[index];
      const { test = 0, leads = [] } = steps[index] ?? {};
      if (here === undefined) continue;
      here.tests[test] = 1;
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
  const isNew = into.findings[finding] === 0;
  into.findings[finding] = 1;
  const otherwise = layout.findings[finding]?.otherwise;
  const on = otherwise?.kind === 'step' && addAll(into, ahead[otherwise.index]);
  if (otherwise?.kind !== 'finding' || !isNew) return isNew || on;
  addLead(layout, ahead, into, otherwise);
  return true;
}

function addAll(into: Ahead, from: Ahead | undefined): boolean {
  if (from === undefined) return false;
  const tests = addMarks(into.tests, from.tests);
  return addMarks(into.findings, from.findings) || tests;
}

function addMarks(into: Uint8Array, from: Uint8Array): boolean {
  let isNew = false;
  for (let at = 0; at < from.length; at += 1) {
    if (from[at] !== 1 || into[at] === 1) continue;
    into[at] = 1;
    isNew = true;
  }
  return isNew;
}
