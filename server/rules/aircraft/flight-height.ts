/** A drone flown higher than the law allows. */

import { formatDate } from '../../../grammar/dates.ts';
import { showQuantity } from '../../../grammar/quantity.ts';
import { readingOf } from '../../assess/fall-zone.ts';
import { flightLaw, flights } from '../../assess/flights.ts';
import { judge } from '../../assess/judge.ts';
import { limitLike } from '../../assess/prescriptions.ts';
import { aircraftRule, cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<Report> {
  for (const { inspection, flown } of flights(tree)) {
    if (!flown) continue;
    const day = inspection.date.value;
    const { standing, setting } = judge(readingOf(flown.height, settings), 'drone-height', settings, day);
    if (standing === 'within') continue;
    const { level, where } = flightLaw(settings);
    const height = flown.height.value;
    yield {
      at: flown,
      grade: standing,
      ...(level ? { level } : {}),
      subject: formatDate(day),
      message: `The drone was flown ${showQuantity(height)} above ground on ${formatDate(day)}; the limit is ${limitLike(setting, height)}${where}.`,
      remedy:
        standing === 'exceeds'
          ? 'Correct the height if it is above sea level and not above ground; else fly lower, and have the pilot see to the record of this flight.'
          : 'Write the greatest height above ground from the flight’s own log.',
    };
  }
}

export const flightHeight: Rule = {
  name: 'flight-height',
  group: 'aircraft',
  level: 'error',
  summary: 'a drone flown higher above ground than the law allows',
  sources: [cite('part-107')],
  explanation: `Compares the height of each flight above ground with the limit drone-height. ${aircraftRule('107.51(b)')!.summary} A flight near a taller structure may be higher than the limit by law; near a tall tree it may not.

The law is that of the United States. Where the region is another country the finding is a warning: the law of the place decides, and a practice block can set its limit.`,
  whenNot:
    'Flights above a structure within 400 ft of it: write the structure in a note and set the limit for its folder.',
  looksAt: ['flights'],
  acceptable: false,
  caution: 'The pilot in command answers for the flight; the law of the place decides.',
  examples: [
    {
      title: 'Too high, and perhaps too high',
      text: `site "Fernhollow Court"
  region US-OR

tree 91
  inspection 2026-04-22 from drone
    flown 430 ft, permission owner #! exceeds
  inspection 2026-04-23 from drone
    flown ~380 ft, permission owner #! may exceed
`,
    },
    {
      title: 'In another country a warning',
      text: `site "Fernhollow Court"
  region FR

tree 91
  inspection 2026-04-22 from drone
    flown 130 m, permission owner #! warning exceeds
`,
    },
    {
      title: 'At 400 ft and below',
      text: `tree 92
  inspection 2026-04-22 from drone
    flown 400 ft, permission owner
  inspection 2026-04-23 from drone
    flown 45 m, permission owner
`,
    },
  ],
  check,
};
