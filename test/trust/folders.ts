/** Folders of inventories for the search for faults: several files in several folders, which have a say in each other. */

import { mkdir, readdir, rm, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import fc from 'fast-check';
import { limits } from '../../server/practice/limits.ts';
import { ruleNames } from '../../server/rules/registry.ts';
import type { Folder } from '../cli/folder.ts';
import { photo, tagsOf } from '../mechanics/exif-file.ts';
import { mutated, soup } from './texts.ts';
import { written } from './written.ts';

/** By path. */
export type Files = Readonly<Record<string, Uint8Array>>;

const PATHS = [
  ...['a.wood', 'site.wood', 'b/c.wood', 'b/d.wood', 'b/c/e.wood', 'b/c/f.wood', 'k/l.wood'],
  ...['ü 🌳/m.wood', 'b/c/g/n.wood'],
];
/** Few, so that most of them are named twice. */
const TAGS = ['1', '2', '14', 'S-1', '5-a'];
const PERSONS = ['RV', 'TL'];
const DAYS = ['2024-02-29', '2026-03-14', '2026-05-30', '2026-08-01', '2027-01-01'];
const KINDS = ['thin', 'reduce', 'fell', 'raise'];
const PHOTOS = ['p.jpg', 'gone.jpg', '../p.jpg', 'b/p.jpg'];

const oneOf = <T>(gen: fc.GeneratorValue, items: readonly T[]): T => gen(fc.constantFrom, ...items);
const below = (gen: fc.GeneratorValue, max: number): number => gen(fc.nat, { max: max - 1 });

/** Lines below a tree, about which other files may have a say. */
function ofTree(gen: fc.GeneratorValue): string {
  const rule = () => oneOf(gen, ruleNames);
  switch (below(gen, 9)) {
    case 0:
      return `  formerly ${oneOf(gen, TAGS)}\n`;
    case 1:
      return `  photo ${oneOf(gen, PHOTOS)}\n`;
    case 2:
      return `  inspection ${oneOf(gen, DAYS)} from ground\n    by ${oneOf(gen, PERSONS)}\n    photo ${oneOf(gen, PHOTOS)}\n`;
    case 3:
      return `  accept ${rule()}\n    until ${oneOf(gen, DAYS)}\n    by ${oneOf(gen, PERSONS)}\n    because "seen ""it"""\n`;
    case 4:
      return `  prescription R${below(gen, 2)} ${oneOf(gen, KINDS)}\n    dose ${below(gen, 60)} %\n    between ${oneOf(gen, DAYS)}..${oneOf(gen, DAYS)}\n    by ${oneOf(gen, PERSONS)}\n`;
    case 5:
      return `  defect A cavity\n    on trunk at 3 ft\n    diameter ${1 + below(gen, 40)} in\n    wall ${1 + below(gen, 5)} in\n`;
    case 6:
      return `  follow-up F1 probe\n    of A\n    due ${oneOf(gen, DAYS)}\n    by ${oneOf(gen, PERSONS)}\n`;
    case 7:
      return `  vigor fare\n  felled ${oneOf(gen, DAYS)}\n`;
    default:
      return `  height ${10 + below(gen, 90)} ft\n  crown from 9 ft, 40 ft wide\n  age mature\n`;
  }
}

function tree(gen: fc.GeneratorValue): string {
  const lines = Array.from({ length: below(gen, 4) }, () => ofTree(gen));
  return `tree ${oneOf(gen, TAGS)}\n  species Acer rubrum\n  dbh ${1 + below(gen, 50)} in\n${lines.join('')}`;
}

/** What holds for other files. */
function shared(gen: fc.GeneratorValue): string {
  const person = oneOf(gen, PERSONS);
  const limit = oneOf(gen, limits);
  switch (below(gen, 6)) {
    case 0:
      return `site "${oneOf(gen, ['Fernhollow Court', 'Fernhollow Grove'])}"\n  region ${oneOf(gen, ['US-OR', 'GB', 'DE'])}\n`;
    case 1:
      return `person ${person} "Ruth Varga"\n  qualified ${oneOf(gen, ['consulting arborist', 'climber'])}\n`;
    case 2:
      return `crew ROPE "Rope crew"\n  members ${person}, ZZ\n`;
    case 3:
      return `practice "Office"\n  severity ${oneOf(gen, ruleNames)} ${oneOf(gen, ['off', 'note', 'warning', 'error'])}\n    because "weighed"\n`;
    case 4:
      return `practice "Owners"\n  limit ${limit.name} ${oneOf(gen, ['0', '1', '7.5', '50'])}${limit.unit === '' ? '' : ` ${limit.unit}`}\n    because "as they wish"\n`;
    default:
      return `practice "Birds"\n  season nesting ${oneOf(gen, ['02-01..08-31', '11-15..02-10'])}\n    because "seen here"\n`;
  }
}

/** Longer than a piece of a file, or half as long: what follows is read with another piece. */
const padding = (gen: fc.GeneratorValue): string => `# ${'é'.repeat(400)}\n`.repeat(oneOf(gen, [40, 85, 90]));

const piece = (gen: fc.GeneratorValue): string => {
  switch (below(gen, 12)) {
    case 0:
      return gen(() => mutated);
    case 1:
      return gen(() => soup);
    case 2:
      return gen(() => written).text;
    case 3:
    case 4:
    case 5:
      return shared(gen);
    default:
      return tree(gen);
  }
};

const MOST_PIECES = 6;

function content(gen: fc.GeneratorValue, padded: boolean): Uint8Array {
  const pieces = Array.from({ length: below(gen, MOST_PIECES + 1) }, () =>
    padded && below(gen, 2) === 0 ? padding(gen) + piece(gen) : piece(gen),
  );
  const text = pieces.join(oneOf(gen, ['', '\n', '\n']));
  switch (below(gen, 12)) {
    case 0:
      return Buffer.from(text.replace(/(?<!\r)\n/g, '\r\n'));
    case 1:
      return Buffer.from(`\uFEFF${text}`);
    case 2:
      // No text.
      return below(gen, 3) === 0
        ? Buffer.concat([Buffer.from(text), Buffer.from([0xff])])
        : Buffer.from(text);
    default:
      return Buffer.from(text);
  }
}

export const folders: fc.Arbitrary<Files> = fc.gen().map(gen => {
  const paths = gen(() => fc.shuffledSubarray(PATHS, { minLength: 2, maxLength: 6 }));
  const padded = below(gen, 4) === 0 ? paths[0] : undefined;
  const files = Object.fromEntries(paths.map(path => [path, content(gen, path === padded)]));
  const { exif, gps } = tagsOf({ takenAt: '2026-03-14T12:00:00', latitude: 44.3, longitude: -122.8 });
  const all = { ...files, 'p.jpg': photo(exif, gps), 'b/p.jpg': Buffer.from('no photograph') };
  return Object.defineProperty(all, fc.toStringMethod, { value: () => shown(files) });
});

/** For people, where a case has failed. */
const shown = (files: Files): string =>
  Object.entries(files)
    .map(([path, bytes]) => `${path}: ${JSON.stringify(new TextDecoder().decode(bytes))}`)
    .join('\n');

/** Puts files into a folder in place of what was there. */
export async function fill(folder: Folder, files: Files): Promise<void> {
  for (const name of await readdir(folder.path))
    if (name !== '.git') await rm(folder.file(name), { recursive: true });
  for (const [name, bytes] of Object.entries(files)) {
    await mkdir(dirname(folder.file(name)), { recursive: true });
    await writeFile(folder.file(name), bytes);
  }
}
