import { createContext } from 'svelte';
import type { ContractRouterClient } from '@orpc/contract';
import type { contract, ShopState, Technician, TreeSummary } from '../../main/contract/index.ts';
import { asked, type Asked, type Trouble } from './trouble.ts';
import { remembered, remember } from './remembered.ts';

export type Client = ContractRouterClient<typeof contract>;
export type ReadyShop = Extract<ShopState, { state: 'ready' }>;

const AT_WORK = 'technician';

/** What the window knows of the shop: the connection, the shop's state, its trees, and who is at work. */
export class Session {
  readonly #connect: () => Promise<Client>;
  #client: Client | null = null;
  #technicianId = $state(remembered(AT_WORK) ?? '');

  shop = $state.raw<ShopState | null>(null);
  trees = $state.raw<readonly TreeSummary[]>([]);
  trouble = $state.raw<Trouble | null>(null);

  readonly ready: ReadyShop | null = $derived(this.shop?.state === 'ready' ? this.shop : null);
  readonly technicians: readonly Technician[] = $derived(
    this.ready?.technicians.filter(({ retired }) => !retired) ?? [],
  );
  /** What an hour of work costs, in the currency of parts' prices; null where those do not count as minutes. */
  readonly hourlyRate: number | null = $derived(this.ready?.hourlyRate ?? null);
  /** Who is at work on this bench; null until somebody says so, where it could be one of several. */
  readonly technician: Technician | null = $derived(
    this.technicians.find(({ id }) => id === this.#technicianId) ?? onlyOne(this.technicians),
  );

  constructor(connect: () => Promise<Client>) {
    this.#connect = connect;
  }

  /**
   * Asks the main process; an expected failure comes back as a value. Connects first where that is still to be done. `patience`,
   * in milliseconds: for what may take longer than what the bench asks.
   */
  async ask<T>(
    question: (client: Client, signal: AbortSignal) => Promise<T>,
    patience?: number,
  ): Promise<Asked<T>> {
    return asked(async (signal) => {
      this.#client ??= await this.#connect();
      return question(this.#client, signal);
    }, patience);
  }

  /** Reads the shop and its trees (again). */
  async open(): Promise<void> {
    const shop = await this.ask((client, signal) => client.shop.open(undefined, { signal }));
    if (!shop.ok) return this.#fail(shop.trouble);
    this.shop = shop.value;
    if (shop.value.state === 'ready') await this.#readTrees();
    else this.trouble = null;
  }

  /** Says who is at work; remembered on this machine. */
  workAs(technicianId: string): void {
    this.#technicianId = technicianId;
    remember(AT_WORK, technicianId);
  }

  async #readTrees(): Promise<void> {
    const trees = await this.ask((client, signal) => client.trees.list(undefined, { signal }));
    if (!trees.ok) return this.#fail(trees.trouble);
    this.trees = trees.value;
    this.trouble = null;
  }

  #fail(trouble: Trouble): void {
    this.trouble = trouble;
  }
}

function onlyOne(technicians: readonly Technician[]): Technician | null {
  const [one, ...others] = technicians;
  return one !== undefined && others.length === 0 ? one : null;
}

export const [useSession, provideSession] = createContext<Session>();
