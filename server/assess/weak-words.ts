/** Names the estimates on weak ground that a verdict depends on. */

import { listed } from '../base/words.ts';
import { type WeakGround, weakGroundWords } from '../practice/weak-ground.ts';

/** For the middle of a sentence, one item; none if it depends on none. */
export const weakWords = (weak: readonly WeakGround[]): readonly string[] =>
  weak.length > 0 ? [`it depends on ${listed(weak.map(weakGroundWords))}`] : [];
