import type { Layout, Lead } from './evaluate-layout.ts';

/** What may still come from a step on, one mark a test or a finding, also where a remedy does not mend and leads on. */
export interface Ahead {
  /** 1 where a step asks the test. */
  readonly tests: Uint8Array;
  /** 1 where a branch leads to the finding. */
  readonly findings: Uint8Array;
}

/** By step what is ahead of it, itself included; and of all steps that the path can come to. */
export interface AllAhead {
  readonly step: (index: number) => Ahead | undefined;
  readonly all: Ahead;
}

/** A step's marks, a bit each: those of the tests, then from a word of their own on those of the findings. */
type Bits = Uint32Array;

export function aheadOf(layout: Layout): AllAhead {
  const { steps, tests, findings } = layout;
  const marks: Marks = { layout, findingsFrom: 32 * Math.ceil(tests.length / 32), ahead: [] };
  const none = (): Bits => new Uint32Array((marks.findingsFrom + 32 * Math.ceil(findings.length / 32)) / 32);
  marks.ahead.push(...steps.map(none));
  const onwardLast = layout.order.toReversed();
  // A finding may lead back to a step before it, so the marks are handed back until no more come.
  for (let more = true; more;) {
    more = false;
    for (const index of onwardLast) {
      const here = marks.ahead[index];
      const { test = 0, leads = [] } = steps[index] ?? {};
      if (here === undefined) continue;
      mark(here, test);
      for (const lead of leads) more = addLead(marks, here, lead) || more;
    }
  }
  const all = none();
  addLead(marks, all, layout.first);
  const spread = (bits: Bits): Ahead => ({
    tests: spreadOut(bits, 0, tests.length),
    findings: spreadOut(bits, marks.findingsFrom, findings.length),
  });
  const known: Ahead[] = [];
  return {
    step(index) {
      const bits = marks.ahead[index];
      return bits === undefined ? undefined : (known[index] ??= spread(bits));
    },
    all: spread(all),
  };
}

interface Marks {
  readonly layout: Layout;
  /** The bit of the first finding. */
  readonly findingsFrom: number;
  readonly ahead: Bits[];
}

/** Whether anything was new. */
function addLead(marks: Marks, into: Bits, lead: Lead): boolean {
  const { layout, ahead, findingsFrom } = marks;
  if (lead.kind === 'step') return addAll(into, ahead[lead.index]);
  if (lead.kind === 'nowhere') return false;
  const finding = layout.findingNumber.get(lead.finding) ?? 0;
  const isNew = mark(into, findingsFrom + finding);
  const otherwise = layout.findings[finding]?.otherwise;
  const on = otherwise?.kind === 'step' && addAll(into, ahead[otherwise.index]);
  if (otherwise?.kind !== 'finding' || !isNew) return isNew || on;
  addLead(marks, into, otherwise);
  return true;
}

function mark(into: Bits, bit: number): boolean {
  const word = into[bit >> 5] ?? 0;
  into[bit >> 5] = word | (1 << (bit & 31));
  return into[bit >> 5] !== word;
}

function addAll(into: Bits, from: Bits | undefined): boolean {
  if (from === undefined) return false;
  let isNew = false;
  for (let at = 0; at < from.length; at += 1) {
    const word = into[at] ?? 0;
    into[at] = word | (from[at] ?? 0);
    isNew = isNew || into[at] !== word;
  }
  return isNew;
}

function spreadOut(bits: Bits, from: number, length: number): Uint8Array {
  const marks = new Uint8Array(length);
  for (let at = 0; at < length; at += 1)
    marks[at] = ((bits[(from + at) >> 5] ?? 0) >> ((from + at) & 31)) & 1;
  return marks;
}
