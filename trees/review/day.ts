/** Milliseconds of a day; every day has as many, as moments count no leap seconds. */
export const DAY = 86_400_000;

/** A day of the proleptic Gregorian calendar. `month` and `day` begin at 1. */
export interface CivilDay {
  readonly year: number;
  readonly month: number;
  readonly day: number;
}

/** Days from 1970-01-01 (UTC) to the day that a moment, in milliseconds, falls on. */
export function dayOf(moment: number): number {
  return Math.floor(moment / DAY);
}

/**
 * The calendar day so many days after 1970-01-01. Howard Hinnant, "chrono-Compatible Low-Level Date Algorithms" (2014,
 * howardhinnant.github.io/date_algorithms.html), civil_from_days: years are counted from March, so that a leap day ends one.
 */
export function civilDay(days: number): CivilDay {
  const shifted = days + 719_468;
  const era = Math.floor(shifted / 146_097);
  const ofEra = shifted - era * 146_097;
  const yearOfEra = Math.floor(
    (ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36_524) - Math.floor(ofEra / 146_096)) / 365,
  );
  const ofYear = ofEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const fromMarch = Math.floor((5 * ofYear + 2) / 153);
  const month = fromMarch < 10 ? fromMarch + 3 : fromMarch - 9;
  return {
    year: yearOfEra + era * 400 + Number(month <= 2),
    month,
    day: ofYear - Math.floor((153 * fromMarch + 2) / 5) + 1,
  };
}

/** Days from 1970-01-01 to a calendar day: the same source, days_from_civil. */
export function daysTo({ year, month, day }: CivilDay): number {
  const fromMarch = year - Number(month <= 2);
  const era = Math.floor(fromMarch / 400);
  const yearOfEra = fromMarch - era * 400;
  const ofYear = Math.floor((153 * (month > 2 ? month - 3 : month + 9) + 2) / 5) + day - 1;
  const ofEra = yearOfEra * 365 + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100) + ofYear;
  return era * 146_097 + ofEra - 719_468;
}

/** `YYYY-MM-DD`. */
export function dayText(days: number): string {
  const { year, month, day } = civilDay(days);
  return `${padded(year, 4)}-${padded(month, 2)}-${padded(day, 2)}`;
}

/** Days from 1970-01-01 to a day written `YYYY-MM-DD`. */
export function dayFrom(text: string): number {
  const [year = 1970, month = 1, day = 1] = text.split('-').map(Number);
  return daysTo({ year, month, day });
}

/** Months since the year 0: twelve a year, so that calendar months can be counted on. */
export function monthOf(days: number): number {
  const { year, month } = civilDay(days);
  return year * 12 + month - 1;
}

/** Days from 1970-01-01 to the first of a month. */
export function firstDayOf(month: number): number {
  return daysTo({ year: Math.floor(month / 12), month: (month % 12) + 1, day: 1 });
}

/** The month, as {@link monthOf} counts, that is written `YYYY-MM`. */
export function monthFrom(text: string): number {
  const [year = 1970, month = 1] = text.split('-').map(Number);
  return year * 12 + month - 1;
}

/** `YYYY-MM`. */
export function monthText(month: number): string {
  return `${padded(Math.floor(month / 12), 4)}-${padded((month % 12) + 1, 2)}`;
}

function padded(value: number, digits: number): string {
  return String(value).padStart(digits, '0');
}
