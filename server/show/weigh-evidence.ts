/** What `weigh` says of the evidence: readings with instruments, decay in time, and the rating codes. */

import { compassPoint } from '../../grammar/bearing.ts';
import { codedAs, codedWords } from '../assess/coded.ts';
import { type DecayCourse, decayCourses, FORESEEABLE } from '../assess/decay-time.ts';
import { type DatedWall, instrumentWalls } from '../assess/instruments.ts';
import { showLimit } from '../assess/judge.ts';
import { lengthLike } from '../assess/prescriptions.ts';
import { holesAt, holesWarning } from '../assess/probe-holes.ts';
import type { SignContext } from '../assess/standing.ts';
import { formatDate } from '../base/dates.ts';
import { numberText } from '../base/figures.ts';
import type { Interval } from '../base/interval.ts';
import { METRES_PER_INCH, type Quantity } from '../base/quantity.ts';
import { capital, counted } from '../base/words.ts';
import type { Defect } from '../facts/types.ts';
import { codesCitation } from '../practice/rating-codes.ts';
import { weakGroundWords } from '../practice/weak-ground.ts';
import { olderTreeWords, olderWords } from './older.ts';
import type { Weighed, WeighSection } from './weighed.ts';

export const evidenceSections = (weighed: Weighed): readonly WeighSection[] => [
  ...older(weighed),
  ...evidenceTables({ ...weighed, site: weighed.site }),
  ...codes(weighed),
];

/** Readings with instruments, and decay in time. */
export const evidenceTables = (context: SignContext): readonly WeighSection[] => [
  ...instruments(context),
  ...decay(context),
];

/** `3.4..4.2 in at N`, each with the error of the instrument. */
export const wallTexts = (defect: Defect, walls: readonly DatedWall[]): readonly string[] =>
  walls.map(
    ({ bearing, wall }) =>
      `${lengths(wall, defect.diameter?.value)} ${bearing === undefined ? 'all round' : `at ${compassPoint(bearing)}`}`,
  );

/** What the newest readings leave to those before. */
function older({ tree }: Weighed): readonly WeighSection[] {
  const ofTree = olderTreeWords(tree);
  const rows = [
    ...(ofTree === undefined ? [] : [['the tree', ofTree]]),
    ...tree.parts.flatMap(part => row(part.name.value, olderWords(part, 'limb'))),
    ...tree.defects.flatMap(defect => row(defect.id.value, olderWords(defect, 'defect'))),
    ...tree.targets.flatMap(target => row(`"${target.name.value}"`, olderWords(target, 'target'))),
  ];
  const later = tree.hasLater ? ['Later records are left out.'] : [];
  if (rows.length + later.length === 0) return [];
  return [{ heading: 'Values older than the last reading', head: ['', ''], rows, lines: later }];
}

const row = (name: string, words: string | undefined): readonly string[][] =>
  words === undefined ? [] : [[name, words]];

/** `3.4..4.2 in`, in the unit of the diameter there. */
function lengths({ low, high }: Interval, like: Quantity | undefined): string {
  const unit = like?.unit;
  if (!unit)
    return Number.isFinite(high) ? `${lengthLike(low)}..${lengthLike(high)}` : `${lengthLike(low)} or more`;
  return `${numberText({ low: low / unit.factor, high: high / unit.factor }, 1)} ${unit.symbol}`;
}

function instruments({ tree, settings }: SignContext): readonly WeighSection[] {
  const rows = tree.defects.flatMap(defect =>
    instrumentWalls(defect, tree, settings).map(({ by, day, bearing, wall }) => [
      defect.id.value,
      `${by}, ${formatDate(day!)}`,
      bearing === undefined ? 'all round' : compassPoint(bearing),
      lengths(wall, defect.diameter?.value),
    ]),
  );
  const holes = tree.defects.flatMap(defect => {
    const count = holesAt(defect, tree);
    return count > 0 ? [`${counted(count, 'hole')} at ${defect.id.value}`] : [];
  });
  if (rows.length === 0 && holes.length === 0) return [];
  const warning = holesWarning(tree);
  return [
    {
      heading: 'Instrument readings',
      head: ['', 'with', 'at', 'sound wall, with instrument error'],
      rows,
      lines: [
        ...(holes.length > 0 ? [`Drilled: ${holes.join(', ')}${warning ? `; ${warning}` : ''}.`] : []),
        'At each bearing the latest reading counts.',
      ],
    },
  ];
}

const IMPERIAL: readonly (string | undefined)[] = ['in', 'ft'];

/** `-8..3 mm a year`, in the small unit of whoever wrote the diameter: `-0.32..0.12 in a year`. */
function changeText({ change: { low, high }, defect }: DecayCourse): string {
  return IMPERIAL.includes(defect.diameter?.value.unit?.symbol)
    ? `${numberText({ low: low / METRES_PER_INCH, high: high / METRES_PER_INCH }, 2)} in a year`
    : `${numberText({ low: low * 1000, high: high * 1000 }, 1)} mm a year`;
}

/** Whether the wall was certainly at its limit on the day of the reading. */
const isBelow = ({ limitDays, read }: DecayCourse): boolean => limitDays.high <= read;

/** `from 2031-04-02 to 2040-01-01`, `from 2031-04-02 on, if at all`. */
function limitText(course: DecayCourse): string {
  const { low, high } = course.limitDays;
  if (isBelow(course)) return 'already below';
  if (low === Number.POSITIVE_INFINITY) return `not within ${FORESEEABLE} years`;
  return `from ${formatDate(low)}${Number.isFinite(high) ? ` to ${formatDate(high)}` : ' on, if at all'}`;
}

/** One sentence: the wall, its change, and what follows. */
export const courseText = (course: DecayCourse): string =>
  `The thinnest wall, ${lengths(course.wall, course.defect.diameter?.value)} on ${formatDate(course.read)}, changes by ${changeText(course)} (${course.basis}). It ${isBelow(course) ? 'is already below a sixth of the diameter; measure it again now' : `reaches a sixth of the diameter ${limitText(course)}; measure it again by ${formatDate(course.look)}`}.`;

function decay({ tree, site, settings }: SignContext): readonly WeighSection[] {
  const courses = decayCourses(tree, site, settings);
  if (courses.length === 0) return [];
  const rows = courses.map(course => {
    const { defect, wall, read, look } = course;
    return [
      defect.id.value,
      `${lengths(wall, defect.diameter?.value)} on ${formatDate(read)}`,
      changeText(course),
      limitText(course),
      isBelow(course) ? 'now' : formatDate(look),
    ];
  });
  const limit = showLimit({ setting: settings.limit('wall-share') });
  const lines = courses.map(
    ({ defect, basis, weak }) =>
      `${defect.id.value}: ${basis}${weak.length > 0 ? `; weak evidence: ${weak.map(weakGroundWords).join(', ')}` : ''}.`,
  );
  return [
    {
      heading: `Thinnest wall over the years, against ${limit} of the diameter`,
      head: ['', 'as measured', 'change', 'reaches the limit', 'next reading'],
      rows,
      lines,
    },
  ];
}

function codes({ tree, site, settings, assessment: { signs } }: Weighed): readonly WeighSection[] {
  const lines = signs.flatMap(sign => {
    const coded = codedAs(sign, signs, { tree, site, settings });
    return coded ? [`${capital(sign.name)}: ${codedWords(coded)}.`] : [];
  });
  return lines.length === 0
    ? []
    : [{ heading: `Hazard rating codes (${codesCitation.short}, read in a copy)`, lines }];
}
