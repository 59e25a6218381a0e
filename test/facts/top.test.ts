import { expect, it } from 'vitest';
import { parseBlock } from '../../grammar/blocks.ts';
import { formatDate } from '../../server/base/dates.ts';
import { factOf } from '../../server/facts/build.ts';
import type { Crew, Person, Practice, Site } from '../../server/facts/types.ts';

const read = <F>(text: string) => factOf(parseBlock(text)) as F;

it('a site', () => {
  const site = read<Site>(`site "Fernhollow Court"
  region US-OR
  position 44.3127, -122.8714
  wind 92 mph, exposure B
  client "Fernhollow Court Owners"
  interval 12 months
  breast-height 4.5 ft
  storm 2026-01-18 "gusts to 61 mph"
  storm 2026-02-02
  grounds private
  airspace controlled, authorized 2026-07-01
`);
  expect(site).toMatchObject({
    name: { value: 'Fernhollow Court' },
    region: { value: 'US-OR' },
    position: { latitude: 44.3127, longitude: -122.8714 },
    wind: { exposure: 'B' },
    grounds: { value: 'private' },
    airspace: { controlled: true },
  });
  expect(site.wind!.speed.value.low).toBeCloseTo(92 * 0.44704, 12);
  expect(site.storms.map(({ date, text }) => [formatDate(date), text])).toEqual([
    ['2026-01-18', 'gusts to 61 mph'],
    ['2026-02-02', undefined],
  ]);
  expect(formatDate(site.airspace!.authorizedUntil!)).toBe('2026-07-01');
  expect(read<Site>('site "Grove"\n  airspace uncontrolled\n').airspace).toMatchObject({ controlled: false });
});

it('a person and a crew', () => {
  const person = read<Person>(`person RV "Ruth Varga"
  qualified consulting arborist, remote pilot
  certificate "remote pilot 4417", until 2027-05-31
`);
  expect(person).toMatchObject({ id: { value: 'RV' }, name: { value: 'Ruth Varga' } });
  expect(person.qualifications.map(({ value }) => value)).toEqual(['consulting arborist', 'remote pilot']);
  expect(formatDate(person.certificates[0]!.until!)).toBe('2027-05-31');
  const crew = read<Crew>(
    'crew ROPE "Rope crew"\n  members JM, TL\n  rope 400 lb\n  crane 6000 lb at 60 ft\n  lift 55 ft\n',
  );
  expect(crew.members.map(({ value }) => value)).toEqual(['JM', 'TL']);
  expect(crew.rope!.value.low).toBeCloseTo(400 * 0.45359237, 9);
  expect(crew.crane!.reach!.value.low).toBeCloseTo(60 * 0.3048, 12);
});

it('a practice block; what its heads fail to give overrides nothing', () => {
  const practice = read<Practice>(`practice "Office limits"
  limit strength-loss 30 %
    because "busy play area under most crowns"
  limit wall-ratio
  season nesting 02-01..08-31
  severity dose-unstated note
`);
  expect(practice.limits.map(({ name, because }) => [name.value, because?.value])).toEqual([
    ['strength-loss', 'busy play area under most crowns'],
  ]);
  expect(practice.seasons).toMatchObject([
    { season: { value: 'nesting' }, days: { from: { month: 2, day: 1 } } },
  ]);
  expect(practice.severities).toMatchObject([{ rule: { value: 'dose-unstated' }, level: { value: 'note' } }]);
});
