export type {
  Costed,
  FixCost,
  IsolateCost,
  NoCost,
  ShopFigures,
  SortedHistory,
  Traffic,
  Which,
} from './protocol.ts';
export { startReckonerWorker, type StartReckoner } from './reckoner-thread.ts';
export { Reckoner, type KeptCost, type Mirrored, type SideCost, type Totals } from './reckoner.svelte.ts';
