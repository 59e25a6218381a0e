import { compassPoint } from '../../../grammar/bearing.ts';
import type { Span } from '../../../grammar/text.ts';
import { showHollow } from '../../assess/hollow-name.ts';
import { type Hollow, hollowsOf } from '../../assess/hollows.ts';
import { type DatedWall, type Disagreement, disagreements } from '../../assess/instruments.ts';
import { lengthLike } from '../../assess/prescriptions.ts';
import { SECTION_CAUTION } from '../../assess/section-words.ts';
import { formatDate } from '../../base/dates.ts';
import { grouped } from '../../base/grouped.ts';
import { type Quantity, showQuantity } from '../../base/quantity.ts';
import { listed } from '../../base/words.ts';
import { type Contradiction, contradictionsOf } from '../../mechanics/contradictions.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { type Rule, type RuleReport, spanOf } from '../rule.ts';

/** Span of the reading, and the contradiction in words. */
function worded(
  { defect, unit }: Hollow,
  { kind, read, possible }: Contradiction,
): { readonly at: Span; readonly says: string } {
  const most = lengthLike(possible.high, { ...defect.diameter!.value, unit });
  switch (kind) {
    case 'depth beyond the void of the walls':
      return {
        at: defect.depth!,
        says: `the probe went in ${showQuantity(defect.depth!.value)}, but the sound walls leave a void of at most ${most} there`,
      };
    case 'depth beyond the far bark':
      return {
        at: defect.depth!,
        says: `a depth of ${showQuantity(defect.depth!.value)} would come out on the far side of the stem. The wood is ${most} thick`,
      };
    case 'opening wider than the stem':
      return {
        at: defect.opening!,
        says: `an opening ${showQuantity(defect.opening!.width!.value)} wide is wider than the stem (${most})`,
      };
    case 'wall beyond the pith': {
      const wall = defect.walls.find(({ thickness }) => thickness.value.low >= read.low) ?? defect.walls[0];
      // Without a wall of its own it is one that an instrument read.
      if (!wall)
        return {
          at: defect.id,
          says: `a sound wall measured by an instrument reaches past the pith (${most} in)`,
        };
      const where = wall.bearing === undefined ? '' : ` at ${compassPoint(wall.bearing)}`;
      return {
        at: wall.thickness,
        says: `a sound wall of ${showQuantity(wall.thickness.value)}${where} reaches past the pith (${most} in)`,
      };
    }
  }
}

/** `a sound wall of at most 3.4 in at N and 3 in at E by tape or probe on 2026-03-14`. */
function wallWords(walls: readonly DatedWall[], bound: 'at least' | 'at most', like: Quantity): string {
  const [{ by, day }] = walls as [DatedWall];
  const read = walls.map(({ wall, bearing }) => {
    const where = bearing === undefined ? 'all round' : `at ${compassPoint(bearing)}`;
    return `${lengthLike(bound === 'at least' ? wall.low : wall.high, like)} ${where}`;
  });
  const when = day === undefined ? '' : ` on ${formatDate(day)}`;
  return `a sound wall of ${bound} ${listed([...new Set(read)])} by ${by}${when}`;
}

/** All bearings of two looks at once, each against the last look that it contradicts. */
function byLook(all: readonly Disagreement[]): readonly (readonly Disagreement[])[] {
  const isNewest = ({ earlier, later }: Disagreement): boolean =>
    !all.some(other => other.later === later && (other.earlier.day ?? UNDATED) > (earlier.day ?? UNDATED));
  const looks = grouped(all.filter(isNewest), one => {
    const { earlier, later } = one;
    const isBeside = earlier.bearing === later.bearing;
    return [earlier.by, earlier.day, later.by, later.day, isThicker(one), isBeside].join(' ');
  });
  return [...looks.values()];
}

const UNDATED = Number.NEGATIVE_INFINITY;

const isThicker = ({ earlier, later }: Disagreement): boolean => later.wall.low > earlier.wall.high;

function* check({ tree, settings }: TreeContext): Iterable<RuleReport> {
  for (const hollow of hollowsOf(tree, settings)) {
    const { defect } = hollow;
    for (const look of byLook(disagreements(defect, tree, settings))) {
      const like = defect.diameter!.value;
      const [one] = look as [Disagreement];
      const isMore = isThicker(one);
      const { earlier: was, later: is } = one;
      const isAlike = was.bearing === is.bearing && (was.day === is.day || was.by === is.by);
      const earlier = look.map(disagreement => disagreement.earlier);
      const later = look.map(disagreement => disagreement.later);
      yield {
        at: spanOf(defect.id),
        grade: 'stated',
        subject: defect.id.value,
        message: `${showHollow(hollow)}: ${wallWords(earlier, isMore ? 'at most' : 'at least', like)}; yet ${wallWords(later, isMore ? 'at least' : 'at most', like)}. Both cannot be true.`,
        remedy: `Measure it again at the same bearing and height, and delete the wrong line. Until then the ${isAlike ? 'thinner' : 'later'} reading counts.`,
      };
    }
    for (const contradiction of contradictionsOf(hollow.outer, hollow.cavity)) {
      const { at, says } = worded(hollow, contradiction);
      yield {
        at: spanOf(at),
        grade: 'stated',
        subject: hollow.defect.id.value,
        message: `${showHollow(hollow)}: ${says}.`,
        remedy:
          contradiction.kind === 'depth beyond the void of the walls'
            ? 'Measure wall and depth again, with their bearings. Until then the less favorable of the two counts.'
            : 'Measure it again, and the diameter over the bark at this height.',
      };
    }
  }
}

export const readingsContradict: Rule = {
  name: 'readings-contradict',
  group: 'structure',
  level: 'warning',
  summary: 'readings of one cavity or decay that cannot all be true',
  sources: [cite('practice')],
  explanation:
    'Compares the readings at a cavity or decay with each other, each over its whole range. The depth of a probe is compared with the void that the sound walls leave at that diameter, and with the bark on the far side. A wall is compared with the pith, and the opening with the stem. Each reading may be off by half an inch, whatever its unit, before it counts as a contradiction.\n\nWalls measured by a resistance drill or tomograph, with their error, are compared with those recorded earlier at the same bearing. A later wall may be thinner, because wood decays. It may be thicker only by the tree’s growth. Until a wall taped as thicker is measured again, it may be as thin as before.\n\nWhere wall and depth cannot both be true, every figure uses the one with the greater loss until they are measured again.',
  limitations: 'Readings whose ranges overlap.',
  appliesTo: ['defects'],
  acceptable: true,
  caution: SECTION_CAUTION,
  examples: [
    {
      title: 'A probe that passed through a sound wall',
      text: `tree 631
  inspection 2026-05-04 from rope
  defect A cavity
    on trunk at 10 ft, facing N
    diameter 30 in
    opening 3 in wide
    depth 26 in #! warning stated
    wall 4 in at N, 8 in at S
`,
    },
    {
      title: 'Deeper, thicker and wider than the stem',
      text: `tree 632
  inspection 2026-05-04 from rope
  defect A cavity
    on trunk at 10 ft, facing N
    diameter 20 in
    opening 3 in wide
    depth 24 in #! warning stated
  defect B decay
    diameter 20 in
    wall 12 in at E #! warning stated
  defect C cavity
    on trunk at 14 ft, facing N
    diameter 20 in
    opening 22 in wide #! warning stated
    depth 4 in
`,
    },
    {
      title: 'Drilled thicker than it was taped in the year before',
      text: `tree 634
  inspection 2025-05-04 from ground
  defect A decay #! warning stated
    diameter 30 in
    wall 5 in at N, 5 in at E, 5 in at S, 5 in at W
  drilling 2026-05-04 of A
    error 0.4 in
    wall 8 in at N, 4 in at E
  defect B decay #! warning stated
    diameter 30 in
    bark 0 in
    wall 4 in at N, 4 in at S
  tomogram 2025-05-04 of B
    sound 45 % at N
    sound 40 % at S
`,
    },
    {
      title: 'Readings that agree within their ranges',
      text: `tree 633
  inspection 2026-05-04 from rope
  defect A cavity
    on trunk at 10 ft, facing N
    diameter 30 in
    opening 3 in wide
    depth 20..24 in
    wall 4 in at N, 7..9 in at S
  defect B decay
    diameter 20 in
    wall > 9 in
`,
    },
  ],
  check,
};
