/** Something that can be done next, and what it costs. */
export interface PlannedAct {
  readonly kind: 'test' | 'remedy' | 'pass-on';
  /** The test's or finding's id; `pass-on` where the unit is passed on. */
  readonly id: string;
  /** Minutes of the act itself: changeovers, work, parts through the hourly rate, proof. */
  readonly minutes: number;
  /** Expected minutes from here to the end if this act goes first and all goes on by the plan. */
  readonly expectedTotal: number;
}

export interface Plan {
  /** What can be done next, least expected total first; empty where there is nothing left to find out. */
  readonly actions: readonly PlannedAct[];
  /** Expected minutes from here to the goal by this plan. */
  readonly expectedTotal: number;
  /** No plan takes fewer expected minutes than this. */
  readonly lowerBound: number;
  /** Minutes by which the plan may fall short of the best there is: `expectedTotal - lowerBound`. */
  readonly gap: number;
  readonly method: 'exact' | 'fast';
}
