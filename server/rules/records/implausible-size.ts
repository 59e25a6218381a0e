import { readingOf } from '../../assess/fall-zone.ts';
import { type Judged, judge, showLimit, showValue } from '../../assess/judge.ts';
import { lengthLike } from '../../assess/prescriptions.ts';
import { interval } from '../../base/interval.ts';
import type { Quantity } from '../../base/quantity.ts';
import { showQuantity } from '../../base/quantity.ts';
import type { Settings } from '../../facts/settings.ts';
import type { Placed, Tree } from '../../facts/types.ts';
import { slenderness } from '../../mechanics/stem.ts';
import { cite } from '../../practice/citation.ts';
import { lookupSpecies } from '../../practice/species.ts';
import type { TreeContext } from '../context.ts';
import { pointTo, type Rule, type RuleReport, spanOf } from '../rule.ts';

type Length = Placed<Quantity>;

interface SizeDoubt {
  readonly at: Length;
  readonly subject: string;
  readonly grade: 'exceeds' | 'may exceed';
  readonly message: string;
  readonly other?: Length;
}

const CHECK =
  'Check the figure and its unit. The usual cause is a mix-up of feet and meters, inches and centimeters, or girth and diameter.';

/** A size of nothing, which would put everything out of reach of the tree. */
function* zero({ height, diameters, crownSpread }: Tree, settings: Settings): Iterable<SizeDoubt> {
  const sizes: readonly (readonly [Length | undefined, string])[] = [
    [height, 'height'],
    ...diameters.map(one => [one, 'dbh'] as const),
    [crownSpread, 'crown'],
  ];
  for (const [at, subject] of sizes) {
    if (!at || readingOf(at, settings).high > 0) continue;
    const message = `A ${subject === 'dbh' ? 'diameter' : subject === 'crown' ? 'crown spread' : subject} of ${showQuantity(at.value)} is not possible for a standing tree.`;
    yield { at, subject, grade: 'exceeds', message };
  }
}

/** Sizes whose whole reading is beyond the greatest expected for the species. */
function* aboveCeiling({ species, height, diameters }: Tree, settings: Settings): Iterable<SizeDoubt> {
  const binomial = species?.value.binomial;
  const known = binomial === undefined ? undefined : lookupSpecies(binomial);
  if (!known) return;
  if (height && readingOf(height, settings).low > known.greatestHeight) {
    yield {
      at: height,
      subject: 'height',
      grade: 'exceeds',
      message: `A height of ${showQuantity(height.value)} is over the greatest expected for ${known.botanical}, ${lengthLike(known.greatestHeight, height.value)} (from memory).`,
    };
  }
  for (const diameter of diameters) {
    if (!(readingOf(diameter, settings).low > known.greatestDiameter)) continue;
    yield {
      at: diameter,
      subject: 'dbh',
      grade: 'exceeds',
      message: `A diameter of ${lengthLike(diameter.value.low, diameter.value)} is over the greatest expected for ${known.botanical}, ${lengthLike(known.greatestDiameter, diameter.value)} (from memory).`,
    };
  }
}

const doubt = (
  judged: Judged,
  at: Length,
  subject: string,
  other: Length,
  what: string,
): SizeDoubt | undefined =>
  judged.standing === 'exceeds'
    ? {
        at,
        subject,
        grade: 'exceeds',
        other,
        message: `${what} is ${showValue(judged)}, which is ${judged.direction === 'at most' ? 'above' : 'below'} ${showLimit(judged)} for a plausible size.`,
      }
    : undefined;

/** Height over the thickest stem. A broken or topped stem is short for its diameter. */
function* againstDiameter(tree: Tree, settings: Settings): Iterable<SizeDoubt> {
  const { height, diameters } = tree;
  if (!height || diameters.length === 0) return;
  const thickest = diameters.reduce((a, b) => (b.value.high > a.value.high ? b : a));
  const tall = readingOf(height, settings);
  const thick = readingOf(thickest, settings);
  if (!(tall.low > 0 && thick.low > 0 && Number.isFinite(tall.high) && Number.isFinite(thick.high))) return;
  const cutBack =
    tree.vigor?.value === 'dead' ||
    tree.works.length > 0 ||
    tree.prescriptions.some(({ kind }) => kind.value === 'monolith' || kind.value === 'pollard');
  if (!cutBack) {
    const squat = judge(slenderness(tall, thick), 'least-slenderness', settings);
    const found = doubt(squat, height, 'height', thickest, 'The height over the diameter');
    if (found) yield found;
  }
  const measuredAt = settings.region.breastHeight.value;
  if (tall.low > measuredAt) {
    const above = interval(tall.low - measuredAt, tall.high - measuredAt);
    const slim = judge(slenderness(above, thick), 'greatest-slenderness', settings);
    const found = doubt(slim, thickest, 'dbh', height, 'The height above breast height over the diameter');
    if (found) yield found;
  }
}

function* againstHeight({ height, crownBase, crownSpread }: Tree, settings: Settings): Iterable<SizeDoubt> {
  if (!height) return;
  const tall = readingOf(height, settings);
  if (crownBase) {
    const base = readingOf(crownBase, settings);
    // An unmeasured base raises no doubt.
    if (tall.low > 0 && Number.isFinite(base.high) && base.high >= tall.low) {
      const sure = base.low >= tall.high;
      yield {
        at: crownBase,
        subject: 'crown',
        grade: sure ? 'exceeds' : 'may exceed',
        other: height,
        message: `The crown ${sure ? 'begins' : 'may begin'} at ${showQuantity(crownBase.value)}, at or above the top of the tree at ${showQuantity(height.value)}.`,
      };
    }
  }
  if (crownSpread && tall.low > 0 && Number.isFinite(tall.high)) {
    const wide = readingOf(crownSpread, settings);
    if (!(wide.low > 0)) return;
    const judged = judge(slenderness(wide, tall), 'crown-spread-ratio', settings);
    const found = doubt(judged, crownSpread, 'crown', height, 'The crown spread over the height');
    if (found) yield found;
  }
}

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  for (const find of [zero, aboveCeiling, againstDiameter, againstHeight]) {
    for (const { at, subject, grade, message, other } of find(tree, settings)) {
      yield {
        at: spanOf(at),
        grade,
        level: grade === 'exceeds' ? 'warning' : 'note',
        subject,
        message,
        remedy: CHECK,
        ...(other ? { related: [pointTo(other, 'Compared with this')] } : {}),
      };
    }
  }
}

export const implausibleSize: Rule = {
  name: 'implausible-size',
  group: 'records',
  level: 'warning',
  summary: 'sizes that are inconsistent, or larger than the species reaches',
  sources: [cite('practice')],
  explanation:
    'Compares height and diameters with the greatest expected for the species. Height over diameter is compared with the limits least-slenderness and (above breast height) greatest-slenderness, crown spread over height with crown-spread-ratio, and the crown base with the height. A size of zero is reported too. The maximum sizes are generous and from memory. They are meant to catch typing errors, not to judge trees.\n\nA size is reported only where its whole range is beyond the bound, except for a crown that may start above the top.',
  limitations:
    'Species not in the table, which have no maximum size. Dead trees, habitat snags, pollards and pruned trees, which may be short for their diameter.',
  acceptable: true,
  examples: [
    {
      title: 'Feet for meters, inches for centimeters, a crown above the top',
      text: `tree 451
  species Betula pendula
  dbh 28 cm
  height 52 m #! warning exceeds

tree 452
  species Betula pendula
  dbh 90 in #! warning exceeds
  height 60 ft

tree 453
  dbh 3 in #! warning exceeds
  height 80 ft

tree 454
  dbh 50 in
  height 12 ft #! warning exceeds

tree 455
  dbh 12 in
  height 40 ft
  crown from 44 ft #! warning exceeds

tree 457
  dbh 0 in #! warning exceeds
  height 0 ft #! warning exceeds

tree 456
  dbh 12 in
  height ~40 ft
  crown from 38 ft #! note may exceed

tree 457
  dbh 12 in
  height 20 ft
  crown from 6 ft, 90 ft wide #! warning exceeds
`,
    },
    {
      title: 'A tall fir, a snag, a multi-stemmed shrub, a whip, sizes not seen',
      text: `tree 458
  species Pseudotsuga menziesii
  dbh 58 in
  height 176 ft
  crown from 70 ft, 42 ft wide

tree 459
  dbh 50 in
  height 14 ft
  vigor dead

tree 460
  species Corylus avellana
  dbh 2 in, 2 in, 3 in
  height 15 ft

tree 461
  dbh 0.4 in
  height 7 ft

tree 462
  dbh unseen
  height unseen
  crown from 12 ft, 30 ft wide
`,
    },
  ],
  check,
};
