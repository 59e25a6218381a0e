/** A photograph that the record names and nobody finds. */

import { photosOf } from '../../facts/photos.ts';
import { cite } from '../../practice/citation.ts';
import type { TreeContext } from '../context.ts';
import type { Rule, RuleReport } from '../rule.ts';

function* check({ tree, photos, photoFile }: TreeContext): Iterable<RuleReport> {
  if (!photos) return;
  for (const { path, start, end, of } of photosOf(tree)) {
    const file = photoFile(path);
    if (!file || file.state === 'read') continue;
    const missing = file.state === 'missing';
    yield {
      at: { start, end },
      grade: 'stated',
      subject: path,
      message: `The photograph ${path} of the ${of} ${missing ? 'is not where the record says' : file.reason}: what rests on it can not be looked at again (${cite('practice').short}).`,
      remedy: missing
        ? 'Put the file there, correct its name (capitals count on many systems), or take the line out.'
        : 'Give yourself the right to read it, or name a file in place of a folder.',
    };
  }
}

export const photoMissing: Rule = {
  name: 'photo-missing',
  group: 'evidence',
  level: 'warning',
  summary: 'a photograph that the record names and that is not there',
  sources: [cite('practice')],
  explanation:
    'Looks for the file of every photograph that a tree, an inspection, a defect or a nest check names: relative to the folder of the inventory file, and inside the inventory only. A photograph is the evidence that others can look at again; a name that leads nowhere is not noticed until it is needed.',
  limitations:
    'Paths that are absolute or lead out of the inventory, which are not followed; hosts that do not show files, such as some editors in a browser.',
  appliesTo: ['photos'],
  acceptable: true,
  examples: [
    {
      title: 'Missing, closed to the reader, there, and out of the inventory',
      photos: { 'photos/480-n.jpg': 'missing', 'photos/480-a.jpg': 'unreadable', 'photos/480.jpg': {} },
      text: `tree 480
  photo photos/480.jpg
  photo ../elsewhere/480.jpg
  inspection 2026-05-06 from ground
    photo photos/480-n.jpg, from 20 ft #! stated
  defect A cavity
    photo photos/480-a.jpg #! stated
`,
    },
    {
      title: 'Where nobody could look',
      text: `tree 481
  photo photos/481.jpg
`,
    },
  ],
  check,
};
