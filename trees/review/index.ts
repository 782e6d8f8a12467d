export {
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
