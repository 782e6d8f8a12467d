/** One line of a list that is searched. */
export interface SearchLine {
  readonly id: string;
  readonly title: string;
  readonly notes: readonly string[];
  readonly share?: number;
}
