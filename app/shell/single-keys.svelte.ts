import { remember, remembered } from './remembered.ts';

/** Whether single keys act (WCAG 2.2, 2.1.4: they can be turned off, for speech input and shaking hands); remembered. */
class SingleKeys {
  #on = $state(remembered('single-keys') !== 'off');

  get on(): boolean {
    return this.#on;
  }

  turn(on: boolean): void {
    this.#on = on;
    remember('single-keys', on ? null : 'off');
  }
}

export const singleKeys = new SingleKeys();
