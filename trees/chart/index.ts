export { compileChart, type Chart } from './chart.ts';
export { jobEventSchema, OUTCOMES, readingSchema } from './event.ts';
export type { JobEvent, JobEventKind, Outcome, Reading } from './event.ts';
export { referenceValue } from './answers.ts';
export type { Answer, JobState, RemedyState, RemedyTried, Skip } from './job.ts';
export { machineEvent, type ChartMachine, type MachineEvent } from './machine.ts';
export { standing } from './standing.ts';
export type { Act, Purpose, Refusal, Standing, StepRef, Wanted } from './standing.ts';
export { advance, replay, startWalk, type Advanced, type Replayed, type Walk } from './walk.ts';
