/** A calendar day as `yyyy-MM-dd`. */
export type Day = string;

/** How many calendar days `day` lies before `today`; 1: yesterday. */
export function daysBefore(day: Day, today: Day): number {
  return Math.round((utcNoon(today) - utcNoon(day)) / 86_400_000);
}

function utcNoon(day: Day): number {
  const [year = 2000, month = 1, date = 1] = day.split('-').map(Number);
  return Date.UTC(year, month - 1, date, 12);
}
