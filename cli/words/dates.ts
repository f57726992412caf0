/** Dates as a grower reads them. */

const WEEKDAYS = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];
export const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** `Mon 4 Jan 2027` of an ISO date. */
export function dateText(iso: string): string {
  const date = new Date(`${iso}T00:00:00Z`);
  return `${WEEKDAYS[date.getUTCDay()]} ${shortDate(iso)} ${date.getUTCFullYear()}`;
}

/** `4 Jan` of an ISO date. */
export function shortDate(iso: string): string {
  const date = new Date(`${iso}T00:00:00Z`);
  return `${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]}`;
}

/** `Mon 4 Jan 2027 to Wed 6 Jan 2027` of ISO dates, or the one date that both are. */
export function daysText(first: string, last: string): string {
  return first === last ? dateText(first) : `${dateText(first)} to ${dateText(last)}`;
}
