import { remember, remembered } from '../../shell/index.ts';

const NAME = 'bench.tabs';

/** A job that is open in this window, with what its tab says. */
export interface JobTab {
  readonly id: string;
  readonly serial: string;
  readonly symptom: string;
}

/** The jobs open in this window, remembered so that a reload resumes them. Which of them are shown, the address says. */
export class BenchTabs {
  tabs = $state.raw<readonly JobTab[]>(read());

  /** Opens a tab, or renews what the job's tab says. */
  open(tab: JobTab): void {
    const at = this.tabs.findIndex(({ id }) => id === tab.id);
    this.#set(at < 0 ? [...this.tabs, tab] : this.tabs.with(at, tab));
  }

  /** Takes a tab away; the job itself stays as it is. */
  leave(id: string): void {
    this.#set(this.tabs.filter((tab) => tab.id !== id));
  }

  #set(tabs: readonly JobTab[]): void {
    this.tabs = tabs;
    remember(NAME, JSON.stringify(tabs));
  }
}

function read(): readonly JobTab[] {
  try {
    const held: unknown = JSON.parse(remembered(NAME) ?? '[]');
    return Array.isArray(held) ? held.filter(isTab) : [];
  } catch {
    return [];
  }
}

function isTab(value: unknown): value is JobTab {
  if (typeof value !== 'object' || value === null) return false;
  const { id, serial, symptom } = value as Partial<Record<keyof JobTab, unknown>>;
  return typeof id === 'string' && typeof serial === 'string' && typeof symptom === 'string';
}
