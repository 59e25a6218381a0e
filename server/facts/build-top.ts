/** Facts of site, person, crew and practice blocks. */

import type { BlockLine, BlockSection } from '../../grammar/syntax.ts';
import {
  contentOf,
  type Draft,
  day,
  dayOf,
  endOf,
  fieldLines,
  headLine,
  monthDays,
  nameOr,
  notesOf,
  position,
  quantity,
  type Reading,
  says,
  startOf,
  textOf,
  word,
  words,
} from './lines.ts';
import type { Crew, Person, Placed, Practice, Site } from './types.ts';

export function readSite(reading: Reading, section: BlockSection): Site {
  const head = headLine(reading, section);
  const storms: Site['storms'][number][] = [];
  const site: Draft<Site> = {
    kind: 'site',
    at: contentOf(head),
    notes: notesOf(reading, section),
    name: nameOr(head, 'name'),
    storms,
  };
  for (const line of fieldLines(reading, section)) {
    switch (line.word) {
      case 'region':
        site.region = word(line, 'region');
        break;
      case 'position':
        site.position = position(line);
        break;
      case 'wind':
        site.wind = {
          speed: quantity(line, 'speed')!,
          exposure: textOf(line, 'exposure') as 'B' | 'C' | 'D',
        };
        break;
      case 'client':
        site.client = word(line, 'client');
        break;
      case 'interval':
        site.interval = quantity(line, 'interval');
        break;
      case 'breast-height':
        site.breastHeight = quantity(line, 'height');
        break;
      case 'storm':
        storms.push(dated(line));
        break;
      case 'grounds':
        site.grounds = word(line, 'grounds');
        break;
      case 'airspace':
        site.airspace = airspace(line);
        break;
    }
  }
  return site as Site;
}

function dated(line: BlockLine): Site['storms'][number] {
  const text = textOf(line, 'text');
  return { date: day(line, 'date')!, ...(text === undefined ? {} : { text }) };
}

function airspace(line: BlockLine): NonNullable<Site['airspace']> {
  const until = dayOf(line, 'until');
  return {
    start: startOf(line),
    end: endOf(line),
    controlled: says(line, 'controlled'),
    ...(until === undefined ? {} : { authorizedUntil: until }),
  };
}

export function readPerson(reading: Reading, section: BlockSection): Person {
  const head = headLine(reading, section);
  const certificates: Person['certificates'][number][] = [];
  let qualifications: readonly Placed<string>[] = [];
  for (const line of fieldLines(reading, section)) {
    if (line.word === 'qualified') qualifications = words(line, 'qualification');
    else if (line.word === 'certificate') {
      const until = day(line, 'until');
      certificates.push({ number: word(line, 'number')!, ...(until ? { until } : {}) });
    }
  }
  const notes = notesOf(reading, section);
  return {
    kind: 'person',
    at: contentOf(head),
    ...(notes ? { notes } : {}),
    id: nameOr(head, 'person'),
    name: nameOr(head, 'name'),
    qualifications,
    certificates,
  };
}

export function readCrew(reading: Reading, section: BlockSection): Crew {
  const head = headLine(reading, section);
  const crew: Draft<Crew> = {
    kind: 'crew',
    at: contentOf(head),
    notes: notesOf(reading, section),
    id: nameOr(head, 'crew'),
    name: nameOr(head, 'name'),
    members: [],
    qualifications: [],
  };
  for (const line of fieldLines(reading, section)) {
    switch (line.word) {
      case 'members':
        crew.members = words(line, 'person');
        break;
      case 'qualified':
        crew.qualifications = words(line, 'qualification');
        break;
      case 'rope':
        crew.rope = quantity(line, 'mass');
        break;
      case 'crane':
        crew.crane = crane(line);
        break;
      case 'lift':
        crew.lift = quantity(line, 'reach');
        break;
    }
  }
  return crew as Crew;
}

function crane(line: BlockLine): NonNullable<Crew['crane']> {
  const reach = quantity(line, 'reach');
  return { mass: quantity(line, 'mass')!, ...(reach ? { reach } : {}) };
}

function authorized(fields: readonly BlockLine[]): Pick<Practice['limits'][number], 'authorized'> {
  const line = fields.find(field => field.word === 'authorized');
  if (!line) return {};
  const by = textOf(line, 'by')!;
  const until = dayOf(line, 'until')!;
  return { authorized: { start: startOf(line), end: endOf(line), by, until } };
}

/** A limit, season or severity whose head does not give its value is left out: it overrides nothing. */
export function readPractice(reading: Reading, sections: readonly BlockSection[]): Practice {
  const head = headLine(reading, sections[0]!);
  const limits: Practice['limits'][number][] = [];
  const seasons: Practice['seasons'][number][] = [];
  const severities: Practice['severities'][number][] = [];
  for (const section of sections) {
    const line = headLine(reading, section);
    const fields = fieldLines(reading, section);
    const reason = fields.find(field => field.word === 'because');
    const because = reason && word(reason, 'text')!;
    const common = { at: contentOf(line), ...(because ? { because } : {}) };
    if (section.word === 'limit') {
      const value = quantity(line, 'value');
      if (value) limits.push({ ...common, name: nameOr(line, 'limit'), value, ...authorized(fields) });
    } else if (section.word === 'season') {
      const days = monthDays(line, 'days');
      if (days) seasons.push({ ...common, season: nameOr(line, 'season'), from: days.from, to: days.to });
    } else if (section.word === 'severity') {
      const level = word(line, 'level');
      if (level) severities.push({ ...common, rule: nameOr(line, 'rule'), level });
    }
  }
  const notes = notesOf(reading, sections[0]!);
  return {
    kind: 'practice',
    at: contentOf(head),
    ...(notes ? { notes } : {}),
    name: nameOr(head, 'name'),
    limits,
    seasons,
    severities,
  };
}
