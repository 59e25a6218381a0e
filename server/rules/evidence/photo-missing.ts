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
      message: `The photograph ${path} of the ${of} ${missing ? 'is not at the recorded path' : file.reason}. The evidence it holds cannot be reviewed.`,
      remedy: missing
        ? 'Put the file there, correct its name (many systems distinguish capitals), or remove the line.'
        : 'Get permission to read the file, or name a file instead of a folder.',
    };
  }
}

export const photoMissing: Rule = {
  name: 'photo-missing',
  group: 'evidence',
  level: 'warning',
  summary: 'a photograph named in the record that cannot be found',
  sources: [cite('practice')],
  explanation:
    'Checks that the file of every photograph named by a tree, an inspection, a defect or a nest check exists. Paths are relative to the folder of the inventory file and inside the inventory only. A photograph is evidence that others can review, and a broken file name goes unnoticed until the photograph is needed.',
  limitations:
    'Absolute paths and paths that lead out of the inventory, which are not followed. Environments without access to files, such as some browser-based editors.',
  appliesTo: ['photos'],
  acceptable: true,
  examples: [
    {
      title: 'Missing, not readable, present, and outside the inventory',
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
      title: 'No file access',
      text: `tree 481
  photo photos/481.jpg
`,
    },
  ],
  check,
};
