export { jobEventSchema, OUTCOMES, readingSchema } from './event.ts';
export type { JobEvent, JobEventKind, Outcome, Reading } from './event.ts';
export type { Answer, JobState, RemedyState, RemedyTried, Skip } from './job.ts';
export type { Act, Purpose, Refusal, Standing, StepRef, Wanted } from './standing.ts';
