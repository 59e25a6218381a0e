import { lengthLike, limitLike } from '../../assess/prescriptions.ts';
import { distanceBetween } from '../../base/distance.ts';
import { inUnit, unitOf } from '../../base/quantity.ts';
import { valuesOf } from '../../facts/interval.ts';
import { photosOf } from '../../facts/photos.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import { beyondLimit, graded } from '../limit-report.ts';
import { pointTo, type Rule, type RuleReport } from '../rule.ts';

const METRES_PER_KILOMETRE = 1000;

/** In the writer's unit; in kilometers from 1 km up. */
const far = (metres: number, like: Parameters<typeof lengthLike>[1]): string =>
  metres < METRES_PER_KILOMETRE
    ? lengthLike(metres, like)
    : inUnit(metres, { ...unitOf('m')!, symbol: 'km', factor: METRES_PER_KILOMETRE }, 1);

function* check({ tree, photos, photoFile, settings }: TreeContext): Iterable<RuleReport> {
  const { position, crownSpread, height } = tree;
  if (!photos || !position) return;
  // The subject may be anywhere in the crown.
  const reach = crownSpread ? valuesOf(crownSpread.value, settings).high / 2 : 0;
  for (const { path, distance, start, end } of photosOf(tree)) {
    const file = photoFile(path);
    const { latitude, longitude } = (file?.state === 'read' && file.record) || {};
    if (latitude === undefined || longitude === undefined) continue;
    const apart = distanceBetween(position, { latitude, longitude });
    const stated = distance && valuesOf(distance.value, settings);
    const beyond = stated
      ? { low: apart - stated.high - reach, high: apart - stated.low }
      : { low: Number.NEGATIVE_INFINITY, high: apart };
    const judged = beyondLimit(beyond, 'photo-position-tolerance', settings);
    if (!judged) continue;
    const like = distance?.value ?? height?.value;
    yield {
      at: { start, end },
      ...graded(judged),
      subject: path,
      message: `The photograph ${path} was taken ${far(apart, like)} from the position of the tree according to its file. That ${judged.standing} ${stated ? 'the distance stated here by more than' : 'any recorded distance by more than'} the limit of ${limitLike(judged.setting, like)}.`,
      remedy: stated
        ? 'Check which tree it shows, the position of the tree, and the distance.'
        : 'Check which tree it shows, and state the distance: from 40 ft.',
      related: [pointTo(position, 'The position of the tree')],
    };
  }
}

export const photoPositionDisagrees: Rule = {
  name: 'photo-position-disagrees',
  group: 'evidence',
  level: 'warning',
  summary: 'a photograph whose file gives a different location',
  sources: [cite('practice')],
  explanation:
    'Compares the position the camera wrote into the file (Exif, GPS) with the position of the tree. Their distance may be up to the sum of the recorded distance to the subject (the stand-off for a nest check), half the crown spread and the limit photo-position-tolerance, since both positions are readings. Photographing a neighboring tree by mistake is common when many trees are photographed on one day. Without a recorded distance the finding is a note, because a long lens may have been used.',
  limitations: 'Trees without a position, files without one, and environments without access to files.',
  appliesTo: ['photos'],
  acceptable: true,
  examples: [
    {
      title: 'Two streets away; from a distance, with none recorded',
      photos: {
        'photos/484-n.jpg': { latitude: 44.3147, longitude: -122.8714 },
        'photos/484.jpg': { latitude: 44.3134, longitude: -122.8714 },
      },
      text: `tree 484
  position 44.3127, -122.8714
  crown from 10 ft, 40 ft wide
  photo photos/484.jpg #! note may exceed
  inspection 2026-05-06 from drone
    photo photos/484-n.jpg, from 55 ft #! warning exceeds
`,
    },
    {
      title: 'Within the stated distance; no positions',
      photos: {
        'photos/485-n.jpg': { latitude: 44.3132, longitude: -122.8714 },
        'photos/485-a.jpg': {},
        'photos/486.jpg': { latitude: 45.3132, longitude: -122.8714 },
      },
      text: `tree 485
  position 44.3127, -122.8714
  inspection 2026-05-06 from drone
    photo photos/485-n.jpg, from 180 ft
    photo photos/485-a.jpg, from 20 ft

tree 486
  photo photos/486.jpg
`,
    },
  ],
  check,
};
