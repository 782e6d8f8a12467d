import { answerTo, NO_ANSWER, resultOf, type Answers } from './evaluate-answers.ts';
import type { Layout, Lead } from './evaluate-layout.ts';

/** Where the course is; `at` is the step's or finding's number. */
export interface Place {
  readonly kind: 'step' | 'finding' | 'remedy' | 'proof' | 'adrift' | 'mended';
  readonly at: number;
}

/** Where a job stands: all that decides what is done next. */
export interface Spot {
  readonly place: Place;
  /** Findings gone past since the course set out, their remedies having failed, a character each. */
  readonly passed: string;
  /** The bench's number in {@link Ways}. */
  readonly bench: number;
  /** The answers that stand. */
  readonly answers: Answers;
  /** Findings whose remedy did not mend, a character each, in order. */
  readonly tried: string;
  /** Tests of the proof of the remedy in hand or done. */
  readonly prove: readonly number[];
  /** Tests answered with another result than the first, in the order of the answers; kept only where a proof is made of them. */
  readonly unsound: readonly number[];
  /** Nothing is left to do here, whatever the bench; the rest of the spot is forgotten. */
  readonly isOver: boolean;
}

export function hasTried({ tried }: Pick<Spot, 'tried'>, finding: number): boolean {
  return tried.includes(String.fromCharCode(finding));
}

export function withTried(tried: string, finding: number): string {
  return [...tried, String.fromCharCode(finding)].sort().join('');
}

/** Is told a step that the course goes past, and the result by which it does. */
export type PassBranch = (step: number, result: number) => void;

type Known = Pick<Spot, 'answers' | 'tried'>;
type Whereabouts = Pick<Spot, 'place' | 'passed'>;

/** Where the course comes to by the answers that stand, set out from the start of the path. */
export function setOut(layout: Layout, known: Known): Whereabouts {
  return follow(layout, known, layout.first, '');
}

/**
 * Where the course comes to by the answers that stand: on from each step whose test has one, and past each finding whose
 * remedy did not mend, once, to where it leads otherwise. `passed` are those it has gone past already. `pass` is told each
 * branch gone along.
 */
export function follow(
  layout: Layout,
  known: Known,
  from: Lead,
  passed: string,
  pass?: PassBranch,
): Whereabouts {
  let past = passed;
  let lead: Lead | null = from;
  while (lead?.kind === 'step' || lead?.kind === 'finding') {
    if (lead.kind === 'step') {
      const step: Layout['steps'][number] | undefined = layout.steps[lead.index];
      const code: number = answerTo(known.answers, step?.test ?? 0);
      if (code === NO_ANSWER) return { place: { kind: 'step', at: lead.index }, passed: past };
      pass?.(lead.index, resultOf(code));
      lead = step?.leads[resultOf(code)] ?? null;
      continue;
    }
    const finding = layout.findingNumber.get(lead.finding) ?? 0;
    if (!hasTried(known, finding)) return { place: { kind: 'finding', at: finding }, passed: '' };
    const mark = String.fromCharCode(finding);
    lead = past.includes(mark) ? null : (layout.findings[finding]?.otherwise ?? null);
    past = withTried(past, finding);
  }
  return { place: { kind: 'adrift', at: 0 }, passed: '' };
}
