/**
 * Appointments as iCalendar (RFC 5545): events of whole days. The UID of an event does not depend on its days, so that a
 * calendar that imports the file again moves the event.
 */

import type { Appointment } from '../assess/appointments.ts';
import { formatDate } from '../base/dates.ts';
import type { Site, Tree } from '../facts/types.ts';
import { sanitize } from './sanitize.ts';

export interface CalendarTree {
  readonly tree: Tree;
  readonly site: Site | undefined;
  /** Path as shown to people, with slashes. */
  readonly file: string;
  readonly appointments: readonly Appointment[];
}

/** Section 3.3.11. */
const escaped = (text: string): string =>
  sanitize(text.replace(/\r\n?|\u2028|\u2029/g, '\n'))
    .replace(/[\\;,]/g, '\\$&')
    .replaceAll('\n', '\\n');

const MOST_OCTETS = 75;
/** In UTF-8. */
const octetsOf = (character: string): number => {
  const code = character.codePointAt(0)!;
  return code < 0x80 ? 1 : code < 0x800 ? 2 : code < 0x10000 ? 3 : 4;
};
const ASCII = /^[\x20-\x7E]*$/;

/** Section 3.1: lines of at most 75 octets, broken between characters; continuation lines begin with a space. */
function folded(line: string): string {
  if (line.length <= MOST_OCTETS && ASCII.test(line)) return `${line}\r\n`;
  let out = '';
  let octets = 0;
  for (const character of line) {
    const more = octetsOf(character);
    if (octets + more > MOST_OCTETS) {
      out += '\r\n ';
      octets = 1;
    }
    out += character;
    octets += more;
  }
  return `${out}\r\n`;
}

const dateOf = (day: number): string => formatDate(day).replaceAll('-', '');

function eventOf({ tree, site, file }: CalendarTree, appointment: Appointment, uid: string, on: number) {
  const name = tree.name ? ` "${tree.name.value}"` : '';
  const { from, to, title, notes, kind } = appointment;
  const { position } = tree;
  return [
    'BEGIN:VEVENT',
    `UID:${uid}`,
    `DTSTAMP:${dateOf(on)}T000000Z`,
    `DTSTART;VALUE=DATE:${dateOf(from)}`,
    // Exclusive.
    `DTEND;VALUE=DATE:${dateOf(to + 1)}`,
    `SUMMARY:${escaped(`${tree.tag.value}${name}: ${title}`)}`,
    `DESCRIPTION:${escaped([...notes, file].join('\n'))}`,
    ...(site ? [`LOCATION:${escaped(site.name.value)}`] : []),
    ...(position ? [`GEO:${position.latitude.toFixed(6)};${position.longitude.toFixed(6)}`] : []),
    `CATEGORIES:${escaped(kind)}`,
    // Does not block time.
    'TRANSP:TRANSPARENT',
    'END:VEVENT',
  ];
}

/** A calendar tree by tree. */
export interface CalendarWriter {
  readonly head: string;
  readonly eventsOf: (tree: CalendarTree) => string;
  readonly end: string;
}

/** @param on day number of the calendar */
export function calendarWriter(on: number): CalendarWriter {
  const given = new Map<string, number>();
  const uidOf = ({ site, tree }: CalendarTree, { kind, subject }: Appointment): string => {
    const name = [site?.name.value ?? '', tree.tag.value, kind, subject].map(encodeURIComponent).join('/');
    const times = (given.get(name) ?? 0) + 1;
    given.set(name, times);
    return `${times === 1 ? name : `${name}/${times}`}@soundwood`;
  };
  const text = (lines: readonly string[]) => lines.map(folded).join('');
  return {
    head: text([
      'BEGIN:VCALENDAR',
      'VERSION:2.0',
      'PRODID:-//Soundwood//Soundwood//EN',
      'CALSCALE:GREGORIAN',
    ]),
    eventsOf: tree =>
      text(
        tree.appointments.flatMap(appointment => eventOf(tree, appointment, uidOf(tree, appointment), on)),
      ),
    end: text(['END:VCALENDAR']),
  };
}

export function showCalendar(trees: readonly CalendarTree[], on: number): string {
  const { head, eventsOf, end } = calendarWriter(on);
  return head + trees.map(eventsOf).join('') + end;
}
