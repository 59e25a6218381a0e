/** Photographs and lines of sight. */

import { exact } from '../../server/base/interval.ts';
import { groundSampleDistance } from '../../server/mechanics/photo.ts';
import { sightHeight } from '../../server/mechanics/sight.ts';
import type { PublishedCheck } from './published-check.ts';

export const viewChecks: readonly PublishedCheck[] = [
  {
    name: 'a 36 mm lens sees as wide as it is far: 4 m in 4000 pixels of a picture of 3 by 2',
    source: 'Pinhole camera, frame of 36 by 24 mm',
    expected: 0.001,
    tolerance: 1e-9,
    unit: 'm',
    compute: () =>
      groundSampleDistance(exact(4), {
        focalLength35: exact(0.036),
        imageWidth: exact(4000),
        aspect: exact(1.5),
      }).low,
  },
  {
    name: 'the same lens, 4000 pixels of a picture of 4 by 3: 0.8 of the diagonal of 43.27 mm',
    source: 'Pinhole camera, the diagonal by CIPA DCG-001, from memory',
    expected: 0.9615e-3,
    tolerance: 1e-7,
    unit: 'm',
    compute: () =>
      groundSampleDistance(exact(4), {
        focalLength35: exact(0.036),
        imageWidth: exact(4000),
        aspect: exact(4 / 3),
      }).low,
  },
  {
    name: 'sight line half way to 13.6 m from an eye at 1.6 m',
    source: 'Similar triangles',
    expected: 7.6,
    tolerance: 1e-9,
    unit: 'm',
    compute: () => sightHeight({ eye: 1.6, distance: 20, bottom: 0, top: 13.6, beyond: 20 }, 13.6),
  },
];
