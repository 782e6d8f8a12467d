import type { Picture } from '../../../trees/document/index.ts';
import type { Asked, Trouble } from '../../shell/index.ts';
import { changed, moved, reordered, within, type PointPlace } from './points.ts';

/** How a picture is shown, taken in and changed; whoever shows the form decides what becomes of it. */
export interface PictureHands {
  /** The test's picture; undefined where it shows none. */
  readonly picture: Picture | undefined;
  /** A picture's `data:` address. */
  source: (file: string) => Promise<Asked<string>>;
  /** Another picture, or none. Changes with the same `joins`, one right after another, are one to undo. */
  onchange: (picture: Picture | undefined, what: string, joins?: string) => void;
  /** Takes a file in and gives the name it has in the draft. */
  ontake: (file: File) => Promise<Asked<string>>;
}

interface Drag extends PointPlace {
  readonly index: number;
}

/** A test's picture and its probe points in hand. */
export class PictureDesk {
  readonly #hands: () => PictureHands;
  /** The point that the keys move; -1 for none. */
  selected = $state(-1);
  /** Name of the file that is being taken in; empty where none is. */
  taking = $state('');
  trouble = $state.raw<Trouble | null>(null);
  #drag = $state.raw<Drag | null>(null);

  constructor(hands: () => PictureHands) {
    this.#hands = hands;
  }

  /** The points as they stand, one that is being dragged where it is now. */
  get points(): Picture['points'] {
    const { picture } = this.#hands();
    const points = picture?.points ?? [];
    if (this.#drag === null) return points;
    const { index, x, y } = this.#drag;
    return changed(points, index, { x, y });
  }

  get dragging(): boolean {
    return this.#drag !== null;
  }

  /** Puts a new point down and selects it. Its label is still to be written. */
  place(at: PointPlace): void {
    const points = this.#standing();
    this.#put([...points, { ...within(at), label: '' }], 'Add a point to probe');
    this.selected = points.length;
  }

  /** Moves a point by an arrow key; false where the key is none. */
  step(index: number, key: string, small: boolean): boolean {
    const point = this.#standing()[index];
    const to = point === undefined ? null : moved(point, key, small);
    if (to === null) return false;
    this.#put(changed(this.#standing(), index, to), 'Move a point to probe', `move-${String(index)}`);
    return true;
  }

  label(index: number, label: string): void {
    this.#put(changed(this.#standing(), index, { label }), 'Name a point to probe', `label-${String(index)}`);
  }

  remove(index: number): void {
    this.#put(this.#standing().toSpliced(index, 1), 'Remove a point to probe');
    this.selected = Math.min(this.selected, this.#standing().length - 2);
  }

  reorder(from: number, to: number): void {
    this.#put(reordered(this.#standing(), from, to), 'Move a point in the list');
    this.selected = to;
  }

  grab(index: number): void {
    const point = this.#standing()[index];
    if (point !== undefined) this.#drag = { index, x: point.x, y: point.y };
    this.selected = index;
  }

  drag(to: PointPlace): void {
    if (this.#drag !== null) this.#drag = { ...this.#drag, ...to };
  }

  /** Lets go of a point: it stays where it was dragged to. */
  drop(): void {
    const drag = this.#drag;
    this.#drag = null;
    if (drag === null) return;
    const { index, x, y } = drag;
    const point = this.#standing()[index];
    if (point !== undefined && (point.x !== x || point.y !== y))
      this.#put(changed(this.#standing(), index, { x, y }), 'Move a point to probe');
  }

  /** Takes a picture in and shows it, with the points that there were. */
  async take(files: Iterable<File>): Promise<void> {
    const [file] = files;
    if (file === undefined || this.taking !== '') return;
    this.taking = file.name;
    this.trouble = null;
    const taken = await this.#hands().ontake(file);
    this.taking = '';
    if (taken.ok) this.show(taken.value);
    else this.trouble = { ...taken.trouble, where: '' };
  }

  /** Shows another picture of the draft. */
  show(file: string): void {
    this.trouble = null;
    if (file === this.#hands().picture?.file) return;
    this.#hands().onchange({ file, points: this.#standing() }, `Show ${file}`);
  }

  takeOff(): void {
    this.selected = -1;
    this.#hands().onchange(undefined, 'Take the picture off');
  }

  #standing(): Picture['points'] {
    return this.#hands().picture?.points ?? [];
  }

  #put(points: Picture['points'], what: string, joins?: string): void {
    const { picture, onchange } = this.#hands();
    if (picture === undefined) return;
    onchange({ ...picture, points }, what, joins);
  }
}
