import type { Tree } from '../../../trees/document/index.ts';

/** What there is to be found in the invented shop's record, apart from chance. All of it invented. */
export const STORY = {
  /** Share of units that come back, and the days until they do: from two days to a quarter of a year, the sooner the likelier. */
  comesBack: 0.08,
  backAfterDays: { least: 2, most: 92, skew: 1.4 },
  /** Share of units in which nothing is wrong, and of comebacks that have the same finding again. */
  sound: 0.03,
  sameAgain: 0.6,
  /** Share of jobs in which the technician asks the planner, and how often at most. */
  asksPlanner: 0.5,
  mostAsked: 8,
  /** How often a bench leaves the straight way. */
  skips: 0.015,
  declines: 0.02,
  writesOff: 0.015,
  givesUp: 0.01,
} as const;

/** Someone who works at the invented bench. */
export interface Hand {
  readonly name: string;
  /** Share of the remedies this one does well, at a moment that lies so far (0 to 1) in the history. */
  readonly care: (passed: number) => number;
}

/** The last one is new at the start: over the first third of the history the remedies come to be done as well as the others do them. */
export const HANDS: readonly Hand[] = [
  { name: 'Mara Quill (invented)', care: () => 1 },
  { name: 'Tobin Hale (invented)', care: () => 1 },
  { name: 'Ines Varga (invented)', care: () => 1 },
  { name: 'Rafe Lindqvist (invented)', care: (passed) => Math.min(1, 0.8 + 0.6 * passed) },
];

/**
 * How many times as often as its author says a finding comes with a symptom, at a moment that lies so far (0 to 1) in the
 * history: of each tree's first symptom the author's likeliest finding comes half as often as thought, and the second
 * likeliest grows to three times as often over the last quarter. All others come as the author says.
 */
export function truthAgainstAuthor(rank: number, isFirstSymptom: boolean, passed: number): number {
  if (!isFirstSymptom) return 1;
  if (rank === 0) return 0.5;
  return rank === 1 ? 1 + 8 * Math.max(0, passed - 0.75) : 1;
}

/** Whether the symptom is the one that the story is about. */
export function isFirstSymptom(tree: Tree, symptom: string): boolean {
  return Object.keys(tree.symptoms)[0] === symptom;
}
