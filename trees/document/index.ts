export {
  bandsOf,
  limitsOf,
  referenceOf,
  resultOf,
  type BandRefusal,
  type ResultBand,
  type ResultLimits,
} from './band.ts';
export { checkTree, openChecker, readAndCheck } from './check-tree.ts';
export * from './compare/index.ts';
export { courseOf, type Course } from './course.ts';
export { destination, type Destination } from './destination.ts';
export { expectationOf, type Expectation } from './expectation.ts';
export { flows, flowsOfFew, type Flows } from './flow.ts';
export { isList, isRecord, type Json, type JsonObject } from './json.ts';
export { own } from './own.ts';
export { DOCUMENT_LIMITS } from './document-limits.ts';
export { reachedSteps } from './reached-steps.ts';
export { readTree } from './read-tree.ts';
export { haveSameLeads } from './reweighed.ts';
export { pathOf, pointerOf } from './pointer.ts';
export {
  idSchema,
  ID_PATTERN,
  INSTRUMENTS,
  PART_SCHEMAS,
  READING_UNITS,
  treeSchema,
  UNLISTED,
} from './schema.ts';
export { shapeProblems } from './shape-problem.ts';
export { TEXT } from './stand-in.ts';
export { isHolder, valueAt } from './value-at.ts';
export { meetingsOf, type Meetings } from './meeting.ts';
export { stepsOf, type PathStep } from './path.ts';
export { countOf, firstProblems, quote, type Problem } from './problem.ts';
export { treeJsonSchema } from './tree-json-schema.ts';
export type * from './tree.ts';
