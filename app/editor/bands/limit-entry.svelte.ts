import { own } from '../../../trees/document/index.ts';
import { setEnd, setLimit, type Results } from '../../../trees/limits/index.ts';
import type { BandDesk } from './band-desk.svelte.ts';
import { resultTitle } from './band-words.ts';
import { limitText, limitWords, readLimit } from './limit-text.ts';

/** Which end of which result's band. */
export interface BandEnd {
  readonly result: string;
  readonly end: 'from' | 'to';
}

/** A limit while it is typed; it is taken when its field is left, or by Enter. */
export class LimitEntry {
  readonly #desk: () => BandDesk;
  readonly #end: () => BandEnd;
  #typed = $state<string | null>(null);
  #refused = $state<string | undefined>();

  readonly value = $derived.by(() => {
    const { result, end } = this.#end();
    return own(this.#desk().results, result)?.band?.[end];
  });
  readonly shown = $derived.by(() => this.#typed ?? limitText(this.value, this.#desk().unit));

  constructor(desk: () => BandDesk, end: () => BandEnd) {
    this.#desk = desk;
    this.#end = end;
  }

  get typing(): boolean {
    return this.#typed !== null;
  }

  /** Why what is typed is no limit; undefined where it is one. */
  get wrong(): string | undefined {
    return this.#refused;
  }

  type(text: string): void {
    this.#typed = text;
    this.#refused = undefined;
  }

  /** Back to what the band has. */
  drop(): void {
    this.#typed = null;
    this.#refused = undefined;
  }

  take(): void {
    if (this.#typed === null) return;
    const desk = this.#desk();
    const read = readLimit(this.#typed, desk.unit);
    if (!read.ok) {
      this.#refused = read.wrong;
      return;
    }
    const { value } = this;
    this.drop();
    if (read.value !== value) desk.change(this.#with(read.value), this.#words(read.value));
  }

  /** A limit that two bands share moves for both; opening one end leaves the other band's as it is. */
  #with(to: number | undefined): Results {
    const { authored, layout } = this.#desk();
    const { result, end } = this.#end();
    const side = end === 'from' ? 'starts' : 'ends';
    const limit = layout.limits.find((one) => one.at === this.value && one[side].includes(result));
    if (to === undefined || limit === undefined) return setEnd(authored, result, end, to);
    return setLimit(authored, limit, to);
  }

  #words(to: number | undefined): string {
    const { authored, unit } = this.#desk();
    const { result, end } = this.#end();
    const title = resultTitle(authored, result);
    const where = end === 'from' ? 'begins' : 'ends';
    return to === undefined
      ? `Leave ${title} open ${end === 'from' ? 'below' : 'above'}`
      : `Set where ${title} ${where} to ${limitWords(to, unit)}`;
  }
}
