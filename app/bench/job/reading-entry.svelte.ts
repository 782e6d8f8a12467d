import { defaultAccuracy, parseReading, readingWeights, type Accuracy } from '../../../trees/belief/index.ts';
import type { JobState, Reading } from '../../../trees/chart/index.ts';
import { referenceOf, type Test } from '../../../trees/document/index.ts';
import type { ShopInstrument } from '../../../main/contract/index.ts';
import { remember, remembered } from '../../shell/index.ts';

/** The value of the earlier reading that a test's ratio bands refer to; undefined where there is none. */
export function referenceIn(job: JobState, test: Test): number | undefined {
  const id = referenceOf(test);
  const value = job.answers.find((answer) => answer.test === id)?.reading?.value;
  return typeof value === 'number' ? value : undefined;
}

/** A reading while it is typed: what it would be read as, which band holds it, and with which instrument. */
export class ReadingEntry {
  readonly test: Test;
  readonly reference: number | undefined;
  readonly instruments: readonly ShopInstrument[];
  typed = $state('');
  #instrumentId = $state('');

  readonly instrument = $derived.by(
    () => this.instruments.find(({ id }) => id === this.#instrumentId) ?? null,
  );
  readonly accuracy: Accuracy = $derived.by(() => this.instrument ?? defaultAccuracy(this.test.instrument));
  readonly parsed = $derived.by(() =>
    this.test.reading === undefined ? null : parseReading(this.typed, this.test.reading.unit),
  );
  readonly weighed = $derived.by(() =>
    this.parsed?.ok === true
      ? readingWeights(this.test, { value: this.parsed.value, accuracy: this.accuracy }, this.reference)
      : null,
  );
  /** The reading as it would be recorded, with the result whose band holds it. */
  readonly reading: { readonly result: string; readonly reading: Reading } | null = $derived.by(() => {
    if (this.parsed?.ok !== true || this.weighed?.ok !== true) return null;
    const { percent, constant } = this.accuracy;
    const instrument = this.instrument === null ? {} : { instrument: this.instrument.id };
    const { value, typed } = this.parsed;
    return {
      result: this.weighed.holds,
      reading: { value, typed, accuracy: { percent, constant }, ...instrument },
    };
  });
  readonly tooClose = $derived.by(() => this.weighed?.ok === true && this.weighed.tooClose);

  constructor(test: Test, reference: number | undefined, instruments: readonly ShopInstrument[]) {
    this.test = test;
    this.reference = reference;
    this.instruments = instruments.filter(
      ({ measures, retired }) => measures === test.instrument && !retired,
    );
    this.#instrumentId = remembered(`instrument.${test.instrument}`) ?? '';
  }

  get instrumentId(): string {
    return this.instrument === null ? '' : this.#instrumentId;
  }

  /** Measures with another instrument of the shop; '' is the usual accuracy. Remembered for the next test like it. */
  measureWith(id: string): void {
    this.#instrumentId = id;
    remember(`instrument.${this.test.instrument}`, id === '' ? null : id);
  }
}
