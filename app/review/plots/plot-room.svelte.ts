import type { Room } from './room.ts';

/** A plot's room as its frame measures it, in the component that lays it out. */
export class PlotRoom {
  /** CSS pixels; 0 until measured. */
  width = $state(0);
  tenEms = $state(130);

  get room(): Room {
    return { width: this.width, em: this.tenEms / 10 };
  }
}
