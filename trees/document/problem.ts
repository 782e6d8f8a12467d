import { pointerOf } from './pointer.ts';

/** One thing wrong with a document: which rule, where (an RFC 6901 JSON pointer), what, and what to do about it. */
export interface Problem {
  readonly severity: 'error' | 'warning';
  readonly rule: string;
  readonly at: string;
  readonly message: string;
  readonly help: string;
}

/** An error: the document cannot be read, or not be walked. `at` is the path of keys and indices to the place. */
export function errorAt(at: readonly PropertyKey[], rule: string, message: string, help: string): Problem {
  return { severity: 'error', rule, at: pointerOf(at), message, help };
}

/** A warning: the document can be walked, but something in it is very likely not meant. */
export function warningAt(at: readonly PropertyKey[], rule: string, message: string, help: string): Problem {
  return { severity: 'warning', rule, at: pointerOf(at), message, help };
}

const PROBLEMS_AT_ONCE = 500;

/** The first problems, and where there are more one that says how many, so that a hopeless file cannot flood a screen. */
export function firstProblems(problems: readonly Problem[]): readonly Problem[] {
  const more = problems.length - PROBLEMS_AT_ONCE;
  if (more <= 0) return problems;
  const severity = problems.slice(PROBLEMS_AT_ONCE).some((problem) => problem.severity === 'error')
    ? 'error'
    : 'warning';
  return [
    ...problems.slice(0, PROBLEMS_AT_ONCE),
    {
      severity,
      rule: 'more-problems',
      at: '',
      message: `There are ${String(more)} more problems.`,
      help: 'Mend those shown and check again.',
    },
  ];
}

/** Words out of a document, shortened so that they can be quoted in a sentence. */
export function quote(words: string): string {
  return `“${words.length > 60 ? `${words.slice(0, 59)}…` : words}”`;
}
