export {
  closeGap,
  endOverlap,
  setEnd,
  setLimit,
  setReference,
  splitBand,
  withoutResult,
  type Split,
} from './change-bands.ts';
export { expectedOf, likeliest, type Expected } from './expected.ts';
export {
  ascending,
  layoutBands,
  type BandLayout,
  type Gap,
  type LaidBand,
  type Limit,
  type Overlap,
  type Results,
  type Stretch,
} from './layout.ts';
export { placeOf, resultNow, type RecordedReading } from './recorded-reading.ts';
export { resorting, type Resorted, type Resorting, type ResultCounts } from './resort.ts';
export { rocOf, type Placed, type Roc, type RocPoint } from './roc.ts';
export { separationsOf, type FindingReadings, type Separation } from './separation.ts';
export { ENOUGH, figuresAt, youden, type LimitFigures, type LimitRoom, type Suggestion } from './youden.ts';
