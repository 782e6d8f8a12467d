import type { Room } from './room.ts';

/** Ems: wider than this no plot gets, as the eye would lose the row on its way from title to figures. */
const WIDEST = 84;

/** A plot's room as its frame measures it, in the component that lays it out. */
export class PlotRoom {
  /** CSS pixels; 0 until measured. */
  width = $state(0);
  tenEms = $state(130);

  get room(): Room {
    const em = this.tenEms / 10;
    return { width: Math.min(this.width, WIDEST * em), em };
  }
}
