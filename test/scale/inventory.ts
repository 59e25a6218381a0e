/** An inventory that is checked in several ways, all of which have to find the same. */

import { generateTrees, printTree, SITE_TEXT } from '../../server/bench/inventory.ts';
import { type Folder, folderWith } from '../cli/folder.ts';

export const FORMS = ['text', 'lines', 'json', 'sarif', 'junit', 'markdown'] as const;

const trees = (count: number, firstTag: number) => generateTrees(count, firstTag).map(printTree).join('\n');

/** Many files, one that is cut into pieces, tags that stand twice or stood formerly, names that nobody has. */
export const generated = (): Promise<Folder> =>
  folderWith({
    'site.wood': `${SITE_TEXT}crew ROPE "Rope crew"\n  members RV, TL\n`,
    'large.wood': `${trees(900, 1)}\ntre 5000\n  formerly 7\n  inspection 2026-05-01 from ground\n    by RW\n`,
    'crlf.wood': `\uFEFF${trees(400, 2001)}`.replaceAll('\n', '\r\n'),
    'late.wood': `${trees(3, 890)}\nperson RW "Rolf Vance"\n\ntree 5001\n  formerly 5000\n`,
    'grove/site.wood':
      'site "Fernhollow Grove"\n  region GB\n\npractice "Grove"\n  limit strength-loss 30 %\n',
    ...Object.fromEntries(
      Array.from({ length: 60 }, (_, i) => [`grove/${i % 7}/t${i}.wood`, trees(12, i * 11 + 1)]),
    ),
    'broken.wood': new Uint8Array([0x74, 0xff, 0x0a]),
  });
