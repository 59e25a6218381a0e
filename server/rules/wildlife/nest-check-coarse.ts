import { isRead } from '../../assess/fall-zone.ts';
import { showLimit, showValue } from '../../assess/judge.ts';
import { sharpestPhoto } from '../../assess/nest-photos.ts';
import { NESTING_CAUTION, nestingJobs, nestingSeasons } from '../../assess/nesting.ts';
import { limitLike } from '../../assess/prescriptions.ts';
import { formatDate } from '../../base/dates.ts';
import { inUnit, showQuantity, unitOf } from '../../base/quantity.ts';
import { valuesOf } from '../../facts/interval.ts';
import type { NestCheck, Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit } from '../limit-report.ts';
import type { Rule, RuleReport } from '../rule.ts';

const LEVELS = { exceeds: 'warning', 'may exceed': 'note' } as const;

/** From the ground, foliage hides nests high in a tall crown. */
function fromBelow(check: NestCheck, tree: Tree, { settings }: TreeContext): RuleReport | undefined {
  const { height } = tree;
  if (check.from.value !== 'ground') return undefined;
  const day = formatDate(check.date.value);
  if (!isRead(height))
    return {
      at: check.at,
      grade: 'exceeds',
      level: LEVELS.exceeds,
      subject: day,
      message: `The nest check of ${day} found no nest from the ground in a tree of unrecorded height. A crown can be searched from below up to ${limitLike(settings.limit('nest-check-height'))}.`,
      remedy:
        'Record the height of the tree. For a check from the crown (rope, aerial lift) or above it (drone) the height does not matter.',
    };
  const judged = beyondLimit(valuesOf(height!.value, settings), 'nest-check-height', settings);
  if (!judged) return undefined;
  return {
    at: check.at,
    grade: judged.standing,
    level: LEVELS[judged.standing],
    subject: day,
    message: `The nest check of ${day} found no nest from the ground in a tree of ${showQuantity(height!.value)}. That ${judged.standing} the limit of ${limitLike(judged.setting, height!.value)} for searching a crown from below.`,
    remedy:
      'Check again from the crown (rope, aerial lift) or above it (drone) within the validity of a check, and record it.',
  };
}

/** A drone check is only as good as its photographs. */
function fromAbove(check: NestCheck, { settings, photoFile }: TreeContext): RuleReport | undefined {
  const sight = check.from.value === 'drone' ? sharpestPhoto(check, settings, photoFile) : undefined;
  if (!sight) return undefined;
  const judged = beyondLimit(sight.smallest, 'egg-length', settings);
  if (!judged) return undefined;
  const { photo, smallest, camera, contradicted } = sight;
  const day = formatDate(check.date.value);
  const from = photo.distance ?? check.standOff!;
  const lens = camera.focalLength35.low * (smallest.high / judged.setting.value);
  const sharper = Number.isFinite(lens)
    ? `with a lens of ${inUnit(Math.ceil(lens * 1000) / 1000, unitOf('mm')!, 0)} or longer from the same distance`
    : 'from a measured distance';
  const standOff = settings.limit('nest-stand-off');
  return {
    at: photo,
    grade: judged.standing,
    level: LEVELS[judged.standing],
    subject: day,
    message: `The nest check of ${day} found no nest in a photograph that resolves nothing smaller than ${showValue(judged)} from ${showQuantity(from.value)}. That ${judged.standing} ${showLimit(judged)}, so an egg could not be recognized.${contradicted.length > 0 ? ` Its file records ${contradicted.join(' and ')}. The worse value counts.` : ''}`,
    remedy: `Photograph again ${sharper}, or check from a rope or aerial lift. Keep the stand-off of ${limitLike(standOff, from.value)}.`,
  };
}

function* check(context: TreeContext): Iterable<RuleReport> {
  const { tree, settings, today } = context;
  const seasons = nestingSeasons(tree, settings);
  const relied = new Set<NestCheck>();
  for (const { latest } of nestingJobs(tree, seasons, today)) {
    if (latest?.found.length && latest.found.every(({ use }) => use === 'none')) relied.add(latest);
  }
  for (const nestCheck of relied) {
    const report = fromBelow(nestCheck, tree, context) ?? fromAbove(nestCheck, context);
    if (report) yield report;
  }
}

export const nestCheckCoarse: Rule = {
  name: 'nest-check-coarse',
  group: 'wildlife',
  level: 'warning',
  summary: 'a negative nest check that was unlikely to detect a nest',
  sources: [cite('practice')],
  explanation:
    'Examines the nest check that work in the nesting season relies on, where it found none. From the ground, a crown above the limit nest-check-height hides its nests. From a drone, the photograph decides. The smallest object it resolves is distance × frame width / (35 mm-equivalent focal length × pixels across) times the limit photo-pixels, and is compared with egg-length.\n\nThe frame has the diagonal of the 35 mm frame (43.27 mm, CIPA DCG-001) and the shape of the picture. It is 34.6 mm wide at 4:3, 37.7 mm at 16:9, and anything between where the file does not state it. Of several photographs the sharpest counts. Lens and pixels come from the line and from the camera’s record in the file. A camera record within the range of the line decides. Where the two contradict each other, the worse counts.\n\nIt is a warning where the check certainly could not show a nest or an egg, and a note where it possibly could not.',
  limitations:
    'Checks from a rope, aerial lift or platform, which are made inside the crown. Photographs with distance, lens or width neither recorded nor in the file. Checks that no work relies on.',
  appliesTo: ['nest checks'],
  acceptable: true,
  caution: NESTING_CAUTION,
  examples: [
    {
      title: 'From the ground, under a tall tree and one of uncertain height',
      text: `site "Fernhollow Court"
  region US-OR

tree 101 "Grove oak"
  height 72 ft
  nest check 2026-05-30 from ground #! warning exceeds
    found none
  prescription R1 clean
    between 2026-06-02..2026-06-05

tree 112
  nest check 2026-05-30 from ground #! warning exceeds
    found none
  prescription R1 clean
    between 2026-06-02..2026-06-05

tree 102
  height 28..34 ft
  nest check 2026-05-30 from ground #! note may exceed
    found none
  prescription R1 clean
    between 2026-06-02..2026-06-05
`,
    },
    {
      title: 'A wide lens from 55 ft, and an estimated distance',
      text: `site "Fernhollow Court"
  region US-OR

tree 103
  nest check 2026-05-30 from drone
    found none
    photo photos/103-top.jpg, from 55 ft, 24 mm lens, 4000 px wide #! warning exceeds
  prescription R1 clean
    between 2026-06-02..2026-06-05

tree 104
  nest check 2026-05-30 from drone
    stand-off ~55 ft
    found none
    photo photos/104-top.jpg, 35 mm lens, 4000 px wide #! note may exceed
  prescription R1 clean
    between 2026-06-02..2026-06-05
`,
    },
    {
      title: 'A lens recorded longer than in the file; lens and width from the file alone',
      photos: {
        'photos/109-top.jpg': { focalLength35: 0.024, imageWidth: 4000, imageHeight: 3000 },
        'photos/110-top.jpg': { focalLength35: 0.07, imageWidth: 3000, imageHeight: 4000 },
        'photos/111-top.jpg': { focalLength35: 0.024, imageWidth: 4000, imageHeight: 3000 },
      },
      text: `site "Fernhollow Court"
  region US-OR

tree 109
  nest check 2026-05-30 from drone
    found none
    photo photos/109-top.jpg, from 55 ft, 70 mm lens, 4000 px wide #! warning exceeds
  prescription R1 clean
    between 2026-06-02..2026-06-05

tree 110
  nest check 2026-05-30 from drone
    found none
    photo photos/110-top.jpg, from 55 ft
  prescription R1 clean
    between 2026-06-02..2026-06-05

tree 111
  nest check 2026-05-30 from drone
    found none
    photo photos/111-top.jpg, from 55 ft #! warning exceeds
  prescription R1 clean
    between 2026-06-02..2026-06-05
`,
    },
    {
      title: 'A long lens, a low tree, a check from the lift, and a check that no work relies on',
      text: `site "Fernhollow Court"
  region US-OR

tree 105
  height 72 ft
  nest check 2026-05-30 from drone
    found none
    photo photos/105-a.jpg, from 55 ft, 24 mm lens, 4000 px wide
    photo photos/105-b.jpg, from 55 ft, 70 mm lens, 4000 px wide
  prescription R1 clean
    between 2026-06-02..2026-06-05

tree 106
  height 22 ft
  nest check 2026-05-30 from ground
    found none
  prescription R1 clean
    between 2026-06-02..2026-06-05

tree 107
  height 72 ft
  nest check 2026-05-30 from lift
    found none
  prescription R1 clean
    between 2026-06-02..2026-06-05

tree 108
  height 72 ft
  nest check 2026-05-30 from ground
    found none
  prescription R1 clean
    between 2026-09-15..2026-11-30
`,
    },
  ],
  check,
};
