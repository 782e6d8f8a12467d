export {
  blankColumns,
  columnsOf,
  columnsOver,
  factAt,
  packColumns,
  ROW_BYTES,
  rowAt,
  rowOf,
  unpackColumns,
  withoutRow,
  withRow,
  type FactCodes,
  type FactRow,
} from './columns.ts';
export {
  answersNow,
  factOf,
  LONGEST_ACT,
  type ClosedJob,
  type ShownFinding,
  type TimedEvent,
} from './fact-of.ts';
export {
  ALL_JOBS,
  COMEBACK_WINDOW_DAYS,
  NO_TIME,
  NOT_SHOWN,
  SHOWN,
  type FactColumns,
  type FactNames,
  type Facts,
  type JobFact,
  type ReviewFilter,
  type Way,
} from './fact.ts';
export type * from './figures.ts';
export type * from './slice.ts';
export { firstFrom } from './first-from.ts';
export { reviewOf, type FactReview } from './review-of.ts';
export { jobsOf, type JobsPage, type SliceJobs } from './jobs-of.ts';
export { isPlaceholderSerial } from './placeholder-serial.ts';
export { seededDraws } from './seeded.ts';
export { treeBranches, type TreeBranch } from './tree-branches.ts';
export { EXPECTED_BY, expectedMinutes, type ExpectedMinutes } from './expected-minutes.ts';
export { waysBy } from './walk-way.ts';
export { withTrees, type TreeFigures } from './with-trees.ts';
