/** Which of a plot's points the tab key comes to, and which one is pointed at or focused: its figures are read below the plot. */
export class PointKeys {
  #stop = $state(0);
  pointed = $state<number | null>(null);

  /** One point is a tab stop; arrow keys go on from it. */
  tabindex(index: number, count: number): 0 | -1 {
    return index === Math.min(this.#stop, count - 1) ? 0 : -1;
  }

  focused(index: number): void {
    this.#stop = index;
    this.pointed = index;
  }

  left(index: number): void {
    if (this.pointed === index) this.pointed = null;
  }
}

/** The point a key leads to from `index` of `count`; null for other keys. */
export function pointAfter(key: string, index: number, count: number): number | null {
  switch (key) {
    case 'ArrowRight':
    case 'ArrowDown':
      return Math.min(count - 1, index + 1);
    case 'ArrowLeft':
    case 'ArrowUp':
      return Math.max(0, index - 1);
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    default:
      return null;
  }
}
