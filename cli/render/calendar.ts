/**
 * A calendar (iCalendar, RFC 5545).
 *
 * Whoever imports a later one gets the same events with other texts: an event's UID depends on the calendar's id and its date
 * only. SEQUENCE is the revision, and DTSTAMP the day on which the calendar was made: the same input gives the same file.
 */

import type { Calendar } from '../sections/section.js';

export function calendarText(calendar: Calendar): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//evensow//chores//EN',
    'CALSCALE:GREGORIAN',
    `X-WR-CALNAME:${escaped(calendar.title)}`,
    ...calendar.days.flatMap((day) => eventLines(calendar, day)),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join('');
}

function eventLines(
  { id, from, revision }: Calendar,
  { date, summary, lines }: Calendar['days'][number],
): string[] {
  return [
    'BEGIN:VEVENT',
    `UID:visit-${compact(date)}-${id}@evensow`,
    `DTSTAMP:${compact(from)}T000000Z`,
    `SEQUENCE:${revision}`,
    `DTSTART;VALUE=DATE:${compact(date)}`,
    `DTEND;VALUE=DATE:${compact(dayAfter(date))}`,
    `SUMMARY:${escaped(summary)}`,
    `DESCRIPTION:${escaped(lines.join('\n'))}`,
    'TRANSP:TRANSPARENT',
    'END:VEVENT',
  ];
}

/**
 * A text value (3.3.11): backslash, semicolon, comma and line break have a meaning, so they are marked. Other control
 * characters may not stand in one.
 */
function escaped(text: string): string {
  return text
    .replace(/[\\;,]/g, (sign) => `\\${sign}`)
    .replace(/\r\n|\r|\n/g, '\\n')
    .replace(/\p{Cc}/gu, (sign) => (sign === '\t' ? sign : ''));
}

/** Octets of a line, its end not counted (3.1). */
const LONGEST = 75;

/** Long lines go on in the next, behind a space. Counted in octets of UTF-8; no character is cut in two. */
function folded(line: string): string {
  let out = '';
  let octets = 0;
  for (const character of line) {
    const size = new TextEncoder().encode(character).length;
    if (octets + size > LONGEST) {
      out += '\r\n ';
      octets = 1;
    }
    out += character;
    octets += size;
  }
  return out;
}

function compact(iso: string): string {
  return iso.replaceAll('-', '');
}

function dayAfter(iso: string): string {
  const date = new Date(`${iso}T00:00:00Z`);
  date.setUTCDate(date.getUTCDate() + 1);
  return date.toISOString().slice(0, 10);
}
