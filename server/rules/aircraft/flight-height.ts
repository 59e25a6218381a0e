import { readingOf } from '../../assess/fall-zone.ts';
import { certainty, flights, isUnderPart107 } from '../../assess/flights.ts';
import { judge } from '../../assess/judge.ts';
import { limitLike } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { showQuantity } from '../../base/quantity.ts';
import { aircraftRule } from '../../practice/aircraft.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  const { height: ofPack } = settings.region.drone;
  for (const { inspection, flown, at } of flights(tree)) {
    const day = inspection.date.value;
    const setting = settings.limit('drone-height', day);
    const { from } = setting.origin;
    // The table has the law of the United States.
    const isLaw = from !== 'table' || isUnderPart107(settings);
    const { words, level } = from === 'region' && ofPack ? certainty(ofPack.row) : NO_DOUBT;
    if (!flown) {
      yield {
        at,
        grade: 'stated',
        ...(level || !isLaw ? { level: 'warning' } : {}),
        subject: formatDate(day),
        message: `The drone flight on ${formatDate(day)} has no flight record: no height, no statement about people below and no permission${isLaw ? `. The limit is ${limitLike(setting, tree.height?.value)}${words}` : ''}.`,
        remedy: 'Add a flown line from the flight log, with the greatest height and the permission.',
      };
      continue;
    }
    if (!isLaw) continue;
    const { standing: judged } = judge(readingOf(flown.height, settings), 'drone-height', settings, day);
    // No lower than the ground is the sea: what is within above ground may not be.
    const fromSea = from === 'region' && ofPack?.row.rule.kind === 'drone' && ofPack.row.rule.above === 'sea';
    const standing = judged === 'within' && fromSea ? 'may exceed' : judged;
    if (standing === 'within') continue;
    const height = flown.height.value;
    yield {
      at: flown,
      grade: standing,
      ...(judged === 'within' ? { level: 'note' } : level ? { level } : {}),
      subject: formatDate(day),
      message: `The drone was flown ${showQuantity(height)} above ground on ${formatDate(day)}. The limit is ${limitLike(setting, height)}${words}${fromSea ? ', above sea level' : ''}.`,
      remedy:
        judged === 'within'
          ? 'Add the elevation of the ground above sea level, and check from the flight log that the sum stays within the limit.'
          : standing === 'exceeds'
            ? 'If the height is above sea level, not above ground, correct it. Otherwise fly lower, and have the pilot review the record of this flight.'
            : 'Record the greatest height above ground from the flight log.',
    };
  }
}

const NO_DOUBT: ReturnType<typeof certainty> = { words: '' };

export const flightHeight: Rule = {
  name: 'flight-height',
  group: 'aircraft',
  level: 'error',
  summary: 'a drone flown higher above ground than the law allows, or at a height that is not recorded',
  sources: [cite('part-107')],
  explanation: `Compares the height of each flight above ground with the limit drone-height. ${aircraftRule('107.51(b)')!.summary} The law allows greater heights near a taller structure, but not near a tall tree. A drone inspection with no flight record is treated as equally serious, since neither the height nor the people below are known.\n\nThe height limit is that of the region of the site. A limit that is wholly or partly from memory makes the finding a warning. In a region without a height limit, only flights with no record are reported. A limit above sea level, as in Singapore, is compared with the height above ground, which is never more; a flight within it is a note. Where no region is stated, the law of the United States stands in. A practice block can set a stricter limit.`,
  limitations:
    'Flights within 400 ft of a structure and above it, or under a waiver. For these, set the limit in the practice block of the folder, with the authorization and its last day (authorized).',
  appliesTo: ['flights'],
  acceptable: false,
  caution: 'The pilot in command is responsible for the flight, and local law applies.',
  examples: [
    {
      title: 'Too high, and possibly too high',
      text: `site "Fernhollow Court"
  region US-OR

tree 91
  inspection 2026-04-22 from drone
    flown 430 ft, permission owner #! exceeds
  inspection 2026-04-23 from drone
    flown ~380 ft, permission owner #! may exceed
  inspection 2026-04-24 from drone #! stated
    level limited
`,
    },
    {
      title: 'Under a waiver, and after it expired',
      text: `site "Tower hill"
  region US-OR

practice "Tower hill"
  limit drone-height 500 ft
    because "crown survey beside the water tower"
    authorized by "waiver 107W-2026-0123", until 2026-04-30

tree 93
  inspection 2026-04-30 from drone
    flown 450 ft, permission owner
  inspection 2026-05-01 from drone
    flown 450 ft, permission owner #! exceeds
`,
    },
    {
      title: 'By the height of another country',
      text: `site "Fernhollow Court"
  region FR

tree 91
  inspection 2026-04-22 from drone
    flown 121 m, permission owner #! exceeds
  inspection 2026-04-23 from drone
    flown 120 m, permission owner
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
