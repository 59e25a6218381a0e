/**
 * Writes the six years of this inventory as a git repository: one commit for each day on which somebody wrote something
 * down, by the person who did.
 *
 *   node samples/quillbrook/history.mjs FOLDER
 *
 * FOLDER is new or empty. What is dated later than a commit is not in it, nor are its photographs.
 */

import { execFileSync } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const INES = 'Ines Halloran';
const ANDERS = 'Anders Wik';
const DORA = 'Dora Kelleher';
const BRAM = 'Bram Teague';
const SUNNIVA = 'Sunniva Orr';

/** Each is the last day of what was written down since the one before. */
const COMMITS = [
  ['2021-04-20', INES, 'First visit: twelve trees round the green and along the brook'],
  ['2021-06-08', ANDERS, 'Beech Q-01 drilled'],
  ['2021-11-12', BRAM, 'Fall work: oak reduced, maple cabled, ash cleaned, plane and cherry begun'],
  ['2022-01-10', INES, 'After the storm: chestnut Q-06 moves, pine Q-10 has lost a limb'],
  ['2022-01-14', DORA, 'Chestnut Q-06 felled, hanger of Q-10 taken down'],
  ['2022-04-12', SUNNIVA, 'Crows sit in ash Q-04'],
  ['2022-11-15', BRAM, 'Young lime Q-13 planted for Q-06'],
  ['2023-01-19', BRAM, 'Plane Q-07: the side over the ford is done'],
  ['2023-04-18', INES, 'Second visit'],
  ['2023-10-30', INES, 'The playground has moved across the brook'],
  ['2024-11-22', INES, 'High water: the hut is gone, the alder stands in it'],
  ['2025-06-17', ANDERS, 'Third visit; crows have left the ash'],
  ['2026-04-14', ANDERS, 'Alder Q-12 looked at again'],
];

/** Lines that say when something happened. Other lines may name a day that lies ahead. */
const HAPPENED = new Set(['storm', 'planted', 'felled', 'removed', 'closed', 'done', 'installed', 'inspected']);
const DAY = /\d{4}-\d{2}-\d{2}/;

/** A head inside a tree is one space from its name; the value of a field stands in its column. */
const isHead = line => /^ {2}\S+( \S+)*$/.test(line);
const isComment = line => line.trim().startsWith('#');

/** The records of a tree: each a head, with the comments above it, and its lines. The first is the tree itself. */
function recordsOf(block) {
  const records = [[]];
  let comments = [];
  for (const line of block.split('\n')) {
    if (isComment(line)) comments.push(line);
    else {
      if (isHead(line)) records.push([]);
      records.at(-1).push(...comments, line);
      comments = [];
    }
  }
  records.at(-1).push(...comments);
  return records;
}

/** An inventory as it was written on a day. */
function cutAt(text, day) {
  const isLater = line => HAPPENED.has(line.trim().split(' ')[0]) && DAY.exec(line)[0] > day;
  return text
    .split(/^(?=tree )/m)
    .flatMap(block => {
      if (!block.startsWith('tree ')) return block.replace(/.*\n/g, line => (isLater(line) ? '' : line));
      let looked = '';
      const kept = recordsOf(block).flatMap(record => {
        const [head, ...lines] = record.filter(line => !isComment(line) && line !== '');
        const own = DAY.exec(head)?.[0];
        if (head.startsWith('  inspection ')) looked = own;
        const isAhead = (own ?? looked) > day || (lines.length > 0 && lines.every(isLater));
        return isAhead ? [] : record.filter(line => !isLater(line));
      });
      return kept.some(line => DAY.test(line)) ? kept.join('\n') : [];
    })
    .join('')
    .replace(/\n{3,}/g, '\n\n')
    .trimEnd()
    .concat('\n');
}

const here = dirname(fileURLToPath(import.meta.url));
const [, , folder] = process.argv;
if (folder === undefined || (existsSync(folder) && readdirSync(folder).length > 0)) {
  console.error('Name a folder that is new or empty: node history.mjs FOLDER');
  process.exit(2);
}
mkdirSync(join(folder, 'photos'), { recursive: true });

const git = (args, author, day) =>
  execFileSync('git', ['-C', folder, ...args], {
    stdio: 'ignore',
    env: {
      ...process.env,
      // Signing, hooks and names of the machine have no place in it.
      GIT_CONFIG_GLOBAL: '/dev/null',
      GIT_CONFIG_SYSTEM: '/dev/null',
      GIT_AUTHOR_NAME: author,
      GIT_COMMITTER_NAME: author,
      GIT_AUTHOR_EMAIL: `${author?.split(' ')[0].toLowerCase()}@example.org`,
      GIT_COMMITTER_EMAIL: `${author?.split(' ')[0].toLowerCase()}@example.org`,
      GIT_AUTHOR_DATE: `${day}T17:00:00-08:00`,
      GIT_COMMITTER_DATE: `${day}T17:00:00-08:00`,
    },
  });

git(['init', '--initial-branch', 'main'], INES, COMMITS[0][0]);
const inventories = readdirSync(here).filter(name => name.endsWith('.wood'));
for (const [day, author, message] of COMMITS) {
  rmSync(join(folder, 'photos'), { recursive: true });
  mkdirSync(join(folder, 'photos'));
  for (const name of inventories) {
    const text = cutAt(readFileSync(join(here, name), 'utf8'), day);
    writeFileSync(join(folder, name), text);
    for (const [path] of text.matchAll(/photos\/[\w-]+\.jpg/g)) copyFileSync(join(here, path), join(folder, path));
  }
  git(['add', '--all'], author, day);
  git(['commit', '--message', message], author, day);
}
