/** Answers that stand. Of a large tree's many tests few have one at a time, and states with theirs are many. */
export interface Answers {
  /** The tests that have one, lowest first. */
  readonly tests: readonly number[];
  /** Beside each test the answer that stands: see {@link codeOf}. */
  readonly codes: readonly number[];
}

/** No answer stands. */
export const NO_ANSWER = 0;

export const NO_ANSWERS: Answers = { tests: [], codes: [] };

/** A standing answer: the result's place among its test's, and whether it was given since the last remedy. */
export function codeOf(result: number, isFresh: boolean): number {
  return 2 * (result + 1) + (isFresh ? 1 : 0);
}

export function resultOf(code: number): number {
  return (code >> 1) - 1;
}

export function isFresh(code: number): boolean {
  return (code & 1) === 1;
}

/** The answer that stands for a test, or {@link NO_ANSWER}. */
export function answerTo({ tests, codes }: Answers, test: number): number {
  const at = tests.indexOf(test);
  return at < 0 ? NO_ANSWER : (codes[at] ?? NO_ANSWER);
}

/** The answers with that one standing for a test. */
export function withAnswer({ tests, codes }: Answers, test: number, code: number): Answers {
  const known = tests.indexOf(test);
  if (known >= 0) return { tests, codes: codes.with(known, code) };
  const place = tests.findIndex((other) => other > test);
  if (place < 0) return { tests: [...tests, test], codes: [...codes, code] };
  return { tests: tests.toSpliced(place, 0, test), codes: codes.toSpliced(place, 0, code) };
}

/** The answers of these tests forgotten, and of the others when they were given. */
export function staleWithout({ tests, codes }: Answers, left: readonly number[]): Answers {
  const isKept = (_: number, at: number): boolean => !left.includes(tests[at] ?? -1);
  return { tests: tests.filter(isKept), codes: codes.filter(isKept).map((code) => code & ~1) };
}
