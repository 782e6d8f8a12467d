export type { Wanting } from './answer-again.ts';
export { CONFIDENCE, type PairedMean } from './paired-mean.ts';
export { keptOf, type JobRecord } from './recorded.ts';
export { replayJob, type JobReplay, type ReplayVerdict } from './replay-job.ts';
export { isLost, isWon, lengthOf, shopReplayOf, type ReplayCounts, type ShopReplay } from './replay-shop.ts';
export type { ReplayedWalk, ReplayEnd, ReplayStep } from './walk-again.ts';
