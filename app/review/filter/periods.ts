/** A period by its first and last day (UTC); null for no limit. */
export interface Period {
  readonly id: 'month' | 'last-month' | 'quarter' | 'year' | 'all';
  readonly title: string;
  readonly from: string | null;
  readonly to: string | null;
}

/** The periods that are mostly looked at, as they lie on `today` (UTC, `YYYY-MM-DD`). Months are whole ones. */
export function periodsOn(today: string): readonly Period[] {
  const [year = 0, month = 1] = today.split('-').map(Number);
  const first = (monthsBack: number): string => dayOf(Date.UTC(year, month - 1 - monthsBack, 1));
  const last = dayOf(Date.UTC(year, month, 0));
  return [
    { id: 'month', title: 'This month', from: first(0), to: last },
    { id: 'last-month', title: 'Last month', from: first(1), to: dayOf(Date.UTC(year, month - 1, 0)) },
    { id: 'quarter', title: 'Last 3 months', from: first(2), to: last },
    { id: 'year', title: 'This year', from: `${today.slice(0, 4)}-01-01`, to: `${today.slice(0, 4)}-12-31` },
    { id: 'all', title: 'All', from: null, to: null },
  ];
}

/** The day (UTC) of a moment in milliseconds since 1970. */
export function dayOf(moment: number): string {
  return new Date(moment).toISOString().slice(0, 10);
}
