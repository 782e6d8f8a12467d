export { advise, type Advice, type Held, type Reasoned, type TreeNext, type Why } from './advice.ts';
export { documentWith } from './carry-over.ts';
export {
  evaluate,
  evaluateTraffic,
  startEvaluation,
  type EvaluateQuestion,
  type Evaluating,
  type Evaluation,
} from './evaluate.ts';
export type { StepTraffic } from './evaluate-traffic.ts';
export type { Item } from './evaluate-tally.ts';
export { planFast } from './fast.ts';
export { huffmanLength } from './huffman.ts';
export { informationGain } from './information-gain.ts';
export type { Plan, PlannedAct } from './plan.ts';
export { planExact, startSearch, type Search } from './planner.ts';
export { propose, type Proposal, type ProposeQuestion } from './propose.ts';
export type { Move } from './moved.ts';
export type { Goal, PlanQuestion } from './question.ts';
export { costTheSame } from './same-cost.ts';
export { goneWith, partsOf, withNeeds, withParts, type ProposedPart } from './taken.ts';
