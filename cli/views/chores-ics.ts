/**
 * The work list as a calendar (iCalendar, RFC 5545): one event for each visit, for the whole day, with the list as its text.
 *
 * Whoever imports a later list gets the same events with other texts: an event's UID depends on the title of the line and the
 * date of the visit only. SEQUENCE grows with the log, and DTSTAMP is the first day of the list: the same input gives the same
 * file.
 */

import type { ChoresResult, VisitChores } from '../../sim/season/ahead/chores.js';
import { assumedSentences } from './assumed-words.js';
import { CAUTION } from './caution.js';
import { choreLines, summaryText, TIE } from './chores-words.js';

export function choresIcs(result: ChoresResult): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    'PRODID:-//evensow//chores//EN',
    'CALSCALE:GREGORIAN',
    `X-WR-CALNAME:${escaped(result.title)}`,
    ...result.visits.flatMap((visit, i) => eventLines(result, visit, i === 0)),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${folded(line)}\r\n`).join('');
}

/** @param first the first visit also carries what is taken to be so, and what there is to mind */
function eventLines(result: ChoresResult, visit: VisitChores, first: boolean): string[] {
  const { title, id, from, revision } = result;
  const { date, chores } = visit;
  const list = choreLines(chores).map(({ verb, expected, within, words }) =>
    [verb, expected, within, words.replaceAll(TIE, ' ')].filter((part) => part !== '').join(' '),
  );
  if (list.length === 0) list.push('Nothing to be done, as far as can be told.');
  const text = first ? [...list, '', ...assumedSentences(result), ...CAUTION] : list;
  return [
    'BEGIN:VEVENT',
    `UID:visit-${compact(date)}-${id}@evensow`,
    `DTSTAMP:${compact(from)}T000000Z`,
    `SEQUENCE:${revision}`,
    `DTSTART;VALUE=DATE:${compact(date)}`,
    `DTEND;VALUE=DATE:${compact(dayAfter(date))}`,
    `SUMMARY:${escaped(`${title}: ${summaryText(chores) || 'visit'}`)}`,
    `DESCRIPTION:${escaped(text.join('\n'))}`,
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
