export { default as BenchArea } from './BenchArea.svelte';
export { BENCH_KEYS } from './bench-keys.ts';
export {
  adriftTitle,
  findingTitle,
  interlockWords,
  OUTCOME_WORDS,
  resultTitle,
  stateTitle,
  testTitle,
} from './job/act-words.ts';
export { eventWords } from './job/event-words.ts';
export type { JobKeeper, NextEvent } from './job/job-keeper.ts';
export { OpenJob } from './job/open-job.svelte.ts';
export { readingWords } from './job/reading-words.ts';
export type { Shelf, ShelvedTree } from './job/tree-shelf.ts';
export { startWorker } from './planner/planner-thread.ts';
export { Planner } from './planner/planner.svelte.ts';
export { default as ChoiceRow } from './start/ChoiceRow.svelte';
export { default as JobPane } from './walk/JobPane.svelte';
