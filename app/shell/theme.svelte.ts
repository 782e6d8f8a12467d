import { remember, remembered } from './remembered.ts';

const THEMES = ['system', 'light', 'dark'] as const;
export type Theme = (typeof THEMES)[number];

/** The look's theme: the machine's own, or one that the technician fixed; remembered. */
class ThemeChoice {
  #theme = $state<Theme>(THEMES.find((theme) => theme === remembered('theme')) ?? 'system');

  get current(): Theme {
    return this.#theme;
  }

  choose(theme: Theme): void {
    this.#theme = theme;
    remember('theme', theme === 'system' ? null : theme);
    this.show();
  }

  next(): void {
    this.choose(THEMES[(THEMES.indexOf(this.#theme) + 1) % THEMES.length] ?? 'system');
  }

  /** Writes the choice where the tokens read it. */
  show(): void {
    if (this.#theme === 'system') delete document.documentElement.dataset['theme'];
    else document.documentElement.dataset['theme'] = this.#theme;
  }
}

export const theme = new ThemeChoice();
