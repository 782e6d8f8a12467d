import { createContext } from 'svelte';
import { SvelteMap } from 'svelte/reactivity';
import type { Json } from '../../../../trees/edit/index.ts';

/** What is being typed into a field, and what the document had there when it was. */
export interface Typed {
  readonly text: string;
  readonly over: Json | undefined;
  /** Why it is not in the document; undefined where it is. */
  readonly wrong: string | undefined;
}

/**
 * What is typed into the form's fields, by pointer, for as long as the document's value is the one it was typed over: an undo
 * takes the field with it. What the document does not take is kept while other parts are looked at.
 */
export class Typing {
  readonly #typed = new SvelteMap<string, Typed>();

  at(place: string, value: Json | undefined): Typed | null {
    const typed = this.#typed.get(place);
    return typed !== undefined && typed.over === value ? typed : null;
  }

  keep(place: string, typed: Typed): void {
    this.#typed.set(place, typed);
  }

  forget(place: string): void {
    this.#typed.delete(place);
  }

  /** Forgets what was typed in a list whose entries have come to stand elsewhere. */
  forgetIn(list: string): void {
    for (const place of this.#typed.keys()) if (place.startsWith(`${list}/`)) this.#typed.delete(place);
  }
}

export const [useTyping, provideTyping] = createContext<Typing>();
