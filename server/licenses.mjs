/** The license texts of what a bundle holds of other people's work: they ask that these go along with it. */

import { readdir, readFile, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';

const PACKAGE = /^.*node_modules\/(?:@[^/]+\/)?[^/]+(?=\/)/;

/**
 * Writes LICENSES.txt into the folder.
 * @param metafiles what the bundler says of each bundle
 */
export async function writeLicenses(metafiles, folder) {
  const packages = new Set(
    metafiles.flatMap(({ inputs }) =>
      Object.keys(inputs).flatMap(path => PACKAGE.exec(path)?.[0].replace(/^.*:/, '') ?? []),
    ),
  );
  const texts = await Promise.all([...packages].map(path => licenseOf(resolve(path))));
  await writeFile(
    join(folder, 'LICENSES.txt'),
    `${[...new Set(texts)].sort().join(`\n${'-'.repeat(80)}\n\n`)}`,
  );
}

async function licenseOf(path) {
  const { name, version, license, author } = JSON.parse(await readFile(join(path, 'package.json'), 'utf8'));
  const files = (await readdir(path)).filter(file => /^(licen[cs]e|copying|notice)\b/i.test(file)).sort();
  const texts = await Promise.all(files.map(file => readFile(join(path, file), 'utf8')));
  const written =
    texts.length > 0
      ? texts
      : [`By ${author?.name ?? author ?? 'its authors'}; it brings no text of its license along.\n`];
  return `${name} ${version}, ${license}\n\n${written.map(text => text.replaceAll('\r\n', '\n').trim()).join('\n\n')}\n`;
}
