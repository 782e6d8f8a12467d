import type { ChosenBlock } from './choose.ts';

/** A figure in the making: it is shown every block once, in any order, and then asked. */
export interface Tally<Figure> {
  readonly add: (block: ChosenBlock) => void;
  readonly result: () => Figure;
}
