import { pointerOf } from './pointer.ts';

/** One thing wrong with a document: which rule, where (an RFC 6901 JSON pointer), what, and what to do about it. */
export interface Problem {
  readonly severity: 'error' | 'warning';
  readonly rule: string;
  readonly at: string;
  readonly message: string;
  readonly help: string;
  /**
   * Places that this takes to be complete: if anything there is broken, this may be nothing but an echo of that. One that
   * ends in `/*` is about which entries there are, and not about what they hold.
   */
  readonly restsOn?: readonly string[];
  /** How many problems this one stands for, where that is not just itself. */
  readonly standsFor?: number;
}

type Path = readonly PropertyKey[];

/** In the last place of a path that a problem rests on: only whether an entry is missing matters. */
export const ENTRIES = '*';

/** An error: the document cannot be read, or not be walked. `at` is the path of keys and indices to the place. */
export function errorAt(
  at: Path,
  rule: string,
  message: string,
  help: string,
  restsOn: readonly Path[] = [],
): Problem {
  return problemAt('error', at, rule, message, help, restsOn);
}

/** A warning: the document can be walked, but something in it is very likely not meant. */
export function warningAt(
  at: Path,
  rule: string,
  message: string,
  help: string,
  restsOn: readonly Path[] = [],
): Problem {
  return problemAt('warning', at, rule, message, help, restsOn);
}

function problemAt(
  severity: Problem['severity'],
  at: Path,
  rule: string,
  message: string,
  help: string,
  restsOn: readonly Path[],
): Problem {
  const problem = { severity, rule, at: pointerOf(at), message, help };
  return restsOn.length === 0 ? problem : { ...problem, restsOn: restsOn.map(pointerOf) };
}

const PROBLEMS_AT_ONCE = 500;

/** The first problems, and where there are more one that says how many, so that a hopeless file cannot flood a screen. */
export function firstProblems(problems: readonly Problem[]): readonly Problem[] {
  const rest = problems.slice(PROBLEMS_AT_ONCE);
  if (rest.length === 0) return problems;
  const severity = rest.some((problem) => problem.severity === 'error') ? 'error' : 'warning';
  const more = rest.length === 1 ? `is 1 more ${severity}` : `are ${String(rest.length)} more ${severity}s`;
  return [
    ...problems.slice(0, PROBLEMS_AT_ONCE),
    {
      severity,
      rule: 'more-problems',
      at: '',
      message: `There ${more}.`,
      help: 'Mend those shown and check again.',
      standsFor: rest.length,
    },
  ];
}

/** How many problems there are, those past the first 500 that only one stands for included. */
export function countOf(problems: readonly Problem[]): number {
  return problems.reduce((count, { standsFor = 1 }) => count + standsFor, 0);
}

/** Words out of a document, shortened so that they can be quoted in a sentence. */
export function quote(words: string): string {
  return `“${words.length > 60 ? `${words.slice(0, 59)}…` : words}”`;
}
