/** One line of a list that is searched. */
export interface SearchLine {
  readonly id: string;
  readonly title: string;
  readonly notes: readonly string[];
  readonly share?: number;
  /** Stands after all others, however well its title fits what is searched for. */
  readonly last?: boolean;
}
