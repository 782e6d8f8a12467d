/** A label along an axis: its middle and its width in CSS pixels; of two that collide the lower rank is kept. */
export interface Label {
  readonly at: number;
  readonly width: number;
  readonly rank?: number;
}

/** Which of the labels can be shown with `gap` pixels between them. */
export function thinLabels(labels: readonly Label[], gap: number): readonly boolean[] {
  const shown = labels.map(() => false);
  const order = labels.map((label, index) => ({ ...label, index }));
  order.sort((a, b) => (a.rank ?? 0) - (b.rank ?? 0) || a.at - b.at);
  const taken: Label[] = [];
  for (const label of order) {
    if (taken.some((other) => Math.abs(other.at - label.at) < (other.width + label.width) / 2 + gap))
      continue;
    taken.push(label);
    shown[label.index] = true;
  }
  return shown;
}
